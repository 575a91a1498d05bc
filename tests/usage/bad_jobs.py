"""One good job and a table of what can be wrong with it."""

from dataclasses import dataclass

from stretchform.errors import InputError, NoSolution, StretchformError

GOOD = """\
[job]
name = "Bench tank"
note = "invented example"
example = true
[target]
growth = "4 %"
at = "largest"
[tank]
attitude = "standing"
[[course]]
name = "lower"
length = "900 mm"
inside_diameter = "640 mm"
wall = "2.0 mm"
wall_tolerance = "0.05 mm"
steel = "1.4307"
certificate = { proof_02 = "288 MPa", proof_10 = "322 MPa", tensile = "641 MPa" }
weld = { filler = "308L" }
[[course]]
name = "upper"
like = "lower"
length = "1100 mm"
[head.bottom]
shape = "torisphere"
crown_radius = "640 mm"
knuckle_radius = "64 mm"
wall = "2.5 mm"
straight_flange = "25 mm"
[head.top]
like = "bottom"
[[station]]
name = "middle"
height = "760 mm"
[[plate]]
name = "ring"
count = 3
first = "500 mm"
pitch = "200 mm"
thickness = "1.5 mm"
ring_width = "60 mm"
tabs = 3
tab_clearance = "3 mm"
tab_length = "18 mm"
arm = { kind = "single", depth = "7 mm" }
[[opening]]
name = "fill port"
in = "head.top"
bore = "38 mm"
[water]
temperature = "16 °C"
chloride = "35 mg/l"
[supply]
kind = "hand pump"
relief_pressure = "26 bar"
[gauge]
range = "60 bar"
class = "0.6 %"
height = "1.2 m"
[limits]
growth = "6 %"
share_of_pressure = "85 %"
[model]
seed = 3
[accepted]
cold_water = "cellar at 8 °C and steady, workshop lead, 2026-03-02"
"""
REPLACE, INSERT, NOTHING = "replace", "insert", "nothing"


@dataclass(frozen=True)
class Case:
    old: str
    new: str
    fragment: str
    cure: str = REPLACE  # what to do with the cure: replace the line, insert behind it, nothing
    at: str = ""  # text of the line that must be named; "" = the first line of `new`
    error: type[StretchformError] = InputError


CASES = {
    # numbers and units
    "no unit": Case('wall = "2.0 mm"', 'wall = "2.0"', "no unit"),
    "bare number": Case('wall = "2.0 mm"', "wall = 2.0", "no unit"),
    "wrong unit": Case('wall = "2.0 mm"', 'wall = "2.0 bar"', "bar is a pressure, not a length"),
    "unknown unit": Case('wall = "2.0 mm"', 'wall = "2.0 milimeter"', "unknown unit"),
    "unit in capitals": Case('length = "900 mm"', 'length = "900 MM"', "unknown unit 'MM'"),
    "decimal comma": Case('wall = "2.0 mm"', 'wall = "2,0 mm"', "decimal comma"),
    "decimal comma, no unit": Case('wall = "2.0 mm"', 'wall = "2,0"', "decimal comma"),
    "thousands by comma": Case('"1100 mm"', '"1,100 mm"', "thousands: then 1100"),
    "thousands by space": Case('"1100 mm"', '"1 100 mm"', "thousands set apart"),
    "thousands by apostrophe": Case('"1100 mm"', '"1\'100 mm"', "thousands set apart"),
    "thousands and comma": Case('"1100 mm"', '"1.100,5 mm"', "thousands set apart"),
    "fraction": Case('wall = "2.0 mm"', 'wall = "3/32 in"', "a fraction"),
    "whole and fraction": Case('bore = "38 mm"', 'bore = "1 1/2 in"', "a fraction"),
    "vulgar fraction": Case('bore = "38 mm"', 'bore = "1½ in"', "a fraction"),
    "two numbers": Case('wall = "2.0 mm"', 'wall = "2.0 ± 0.1 mm"', "two numbers"),
    "about": Case('wall = "2.0 mm"', 'wall = "~2.0 mm"', "before the number"),
    "millipascal": Case('"288 MPa"', '"288 mPa"', "mPa is a millipascal"),
    "absolute pressure": Case('"26 bar"', '"26 bara"', "absolute pressure"),
    "coulombs": Case('"16 °C"', '"16 C"', "C is a charge"),
    "nan": Case('wall = "2.0 mm"', 'wall = "nan mm"', "not a finite number"),
    "bare nan": Case('wall = "2.0 mm"', "wall = nan", "not a finite number"),
    "infinite": Case('length = "900 mm"', 'length = "inf mm"', "not a finite number"),
    "too large a power": Case('length = "900 mm"', 'length = "9e300 mm"', "absurdly large"),
    "too small a power": Case('wall = "2.0 mm"', 'wall = "2e-30 mm"', "absurdly small"),
    "huge": Case('length = "900 mm"', 'length = "900 m"', "outside 10 mm to 100 m"),
    "negative": Case('wall = "2.0 mm"', 'wall = "-2.0 mm"', "outside 0.3 mm to 12 mm"),
    "negative growth": Case('growth = "4 %"', 'growth = "-4 %"', "outside 0.2 % to 20 %"),
    "zero": Case('wall = "2.0 mm"', 'wall = "0 mm"', "outside 0.3 mm"),
    "minus as a dash": Case('height = "1.2 m"', 'height = "−1.2 m"', "a dash for a minus"),
    "empty value": Case('wall = "2.0 mm"', 'wall = ""', "nothing written"),
    "words for a number": Case('wall = "2.0 mm"', 'wall = "two mm"', "not a number with a unit"),
    "other digits": Case('wall = "2.0 mm"', 'wall = "٢ mm"', "not a number with a unit"),
    "a list for a number": Case(
        'wall = "2.0 mm"', 'wall = ["2.0 mm", "2.1 mm"]', "a number with a unit is meant"
    ),
    "colder than ice": Case('"16 °C"', '"-2 °C"', "outside 1 °C to 45 °C"),
    # per cent and fractions
    "growth as a bare fraction": Case('growth = "4 %"', 'growth = "0.04"', "is 4 %"),
    "growth as a number": Case('growth = "4 %"', "growth = 0.04", "is 4 %"),
    "fraction with per cent": Case('growth = "4 %"', 'growth = "0.04 %"', "was 4 % meant?"),
    "500 per cent": Case('growth = "4 %"', 'growth = "500 %"', "outside 0.2 % to 20 %"),
    # strengths
    "proof strength in bar": Case('"288 MPa"', '"288 bar"', "was 288 MPa meant?"),
    "proof strength in psi for ksi": Case('"288 MPa"', '"42 psi"', "was 42 ksi meant?"),
    "tensile strength in ksi as MPa": Case('"641 MPa"', '"93 MPa"', "was 93 ksi meant?"),
    "proof strength in psi as MPa": Case('"288 MPa"', '"42000 MPa"', "was 42000 psi meant?"),
    "proof near tensile": Case('"288 MPa"', '"600 MPa"', "not 1.15 times"),
    "proof strengths swapped": Case(
        'proof_10 = "322 MPa"', 'proof_10 = "280 MPa"', "does not lie between"
    ),
    "element nobody knows": Case(
        'tensile = "641 MPa" }',
        'tensile = "641 MPa", analysis = { Qq = "2 %" } }',
        "its key is not one of",
        NOTHING,
    ),
    # sizes to each other
    "radius in place of a diameter": Case(
        'inside_diameter = "640 mm"', 'radius = "320 mm"', "unknown key; the size is given as"
    ),
    "target of half the size": Case(
        'growth = "4 %"', 'outside_diameter = "335 mm"', "a radius for a diameter?"
    ),
    "target of twice the size": Case(
        'growth = "4 %"', 'outside_diameter = "1340 mm"', "a radius for a diameter?"
    ),
    "target as a circumference": Case(
        'growth = "4 %"', 'inside_diameter = "2080 mm"', "a circumference for a diameter?"
    ),
    "target smaller than the start": Case(
        'growth = "4 %"', 'inside_diameter = "630 mm"', "smaller than the 640 mm"
    ),
    "target far too large": Case(
        'growth = "4 %"', 'inside_diameter = "900 mm"', "can be planned"
    ),
    "strength the steel has already": Case(
        'growth = "4 %"', 'gained_yield_strength = "250 MPa"', "288 MPa before forming"
    ),
    "second course half as wide": Case(
        'like = "lower"', 'like = "lower"\ninside_diameter = "320 mm"',
        "a radius for a diameter?", REPLACE, 'inside_diameter = "320 mm"',
    ),
    "two sizes": Case(
        'wall = "2.0 mm"', 'wall = "2.0 mm"\noutside_diameter = "644 mm"',
        "one size is needed, 2 are given", REPLACE, "outside_diameter",
    ),
    "no size": Case(
        'inside_diameter = "640 mm"\n', "", "one size is needed, 0", INSERT, "[[course]]"
    ),
    "two targets": Case(
        'growth = "4 %"', 'growth = "4 %"\nouter = 1', "unknown key", REPLACE, "outer = 1"
    ),
    "two kinds of target": Case(
        'growth = "4 %"', 'growth = "4 %"\noutside_diameter = "670 mm"',
        "one target is needed, 2 are given", REPLACE, "outside_diameter",
    ),
    "no target": Case('growth = "4 %"\n', "", "one target is needed, 0", INSERT, "[target]"),
    "wall thicker than can be": Case('wall = "2.0 mm"', 'wall = "20 mm"', "outside 0.3 mm"),
    "stocky tube": Case(
        'inside_diameter = "640 mm"\nwall = "2.0 mm"', 'inside_diameter = "50 mm"\nwall = "9 mm"',
        "radius over wall", NOTHING, 'wall = "9 mm"',
    ),
    "tolerance as large as the wall": Case(
        'wall_tolerance = "0.05 mm"', 'wall_tolerance = "1 mm"', "a quarter of the wall"
    ),
    # heads
    "knuckle larger than the tank": Case('"64 mm"', '"640 mm"', "larger than the inside radius"),
    "crown smaller than the tank": Case(
        'crown_radius = "640 mm"', 'crown_radius = "200 mm"', "smaller than the inside radius"
    ),
    "negative crown": Case(
        'crown_radius = "640 mm"', 'crown_radius = "-640 mm"', "outside 20 mm to 15 m"
    ),
    "no knuckle radius": Case(
        'knuckle_radius = "64 mm"\n', "", "knuckle_radius is missing", INSERT, "[head.bottom]"
    ),
    "no wall of the head": Case(
        'wall = "2.5 mm"\n', "", "wall is missing", INSERT, "[head.bottom]"
    ),
    "flange longer than the course": Case(
        'length = "900 mm"', 'length = "20 mm"', "longer than the course", REPLACE, "straight_fl"
    ),
    "crown radius of an ellipsoid": Case(
        'shape = "torisphere"\ncrown_radius = "640 mm"\nknuckle_radius = "64 mm"',
        'shape = "ellipsoid 2:1"\ncrown_radius = "640 mm"',
        "has no crown_radius", REPLACE, "crown_radius",
    ),
    "unknown shape": Case('"torisphere"', '"torispherical"', "not one of"),
    "no top": Case(
        '[head.top]\nlike = "bottom"\n', "", "this table is missing", NOTHING, "[head.bottom]"
    ),
    "misspelt head": Case("[head.top]", "[head.topp]", "a bottom and a top"),
    # names, keys, tables
    "unknown key": Case('note = "inv', 'remark = "inv', "unknown key"),
    "misspelt key": Case('wall = "2.0 mm"', 'wal = "2.0 mm"', "did you mean wall?"),
    "key in another word": Case(
        'steel = "1.4307"', 'grade = "1.4307"', "did you mean steel?"
    ),
    "unknown table": Case("[water]", "[watr]", "unknown table"),
    "single brackets": Case("[[plate]]", "[plate]", "its brackets are double"),
    "double brackets": Case("[water]", "[[water]]", "a table is meant"),
    "key outside of any table": Case(
        "[job]\n", 'title = "x"\n[job]\n', "a key outside of any table", NOTHING
    ),
    "missing key": Case('steel = "1.4307"\n', "", "steel is missing", INSERT, "[[course]]"),
    "missing table": Case(
        '[tank]\nattitude = "standing"\n', "", "this table is missing", NOTHING, "[job]"
    ),
    "unknown steel": Case('"1.4307"', '"1.4037"', 'did you mean "1.4307"?'),
    "steel without a certificate": Case(
        'steel = "1.4307"\ncertificate = { proof_02 = "288 MPa", proof_10 = "322 MPa", '
        'tensile = "641 MPa" }', 'steel = "1.4301"',
        "strengths of this coil", INSERT, 'steel = "1.4301"', NoSolution,
    ),
    "two courses of one name": Case('name = "upper"', 'name = "lower"', "a second course"),
    "like nobody": Case('like = "lower"', 'like = "lowr"', "no such name"),
    "like itself": Case('like = "lower"', 'like = "upper"', "round in a circle", NOTHING),
    "station nobody knows": Case('at = "largest"', 'at = "midle"', "no such station"),
    "station with a taken name": Case('"middle"', '"largest"', "stands for the largest growth"),
    "station above the tank": Case('"760 mm"', '"7600 mm"', "above the shell"),
    "opening in no place": Case('in = "head.top"', 'in = "head.tpo"', "no such place"),
    "opening without a height": Case(
        'in = "head.top"', 'in = "lower"', "height is missing", INSERT, "[[opening]]"
    ),
    "empty name": Case('"Bench tank"', '""', "nothing written"),
    "name over two lines": Case('"Bench tank"', '"Bench\\u0007tank"', "cannot be printed"),
    "yes for true": Case("example = true", 'example = "yes"', "true or false is meant"),
    "wrong attitude": Case('"standing"', '"upright"', "not one of"),
    # plates
    "count as text": Case("count = 3", 'count = "6"', "a bare number is meant"),
    "count of half plates": Case("count = 3", "count = 3.5", "a whole number is meant", NOTHING),
    "negative count": Case("count = 3", "count = -6", "outside 1 to 500", NOTHING),
    "plates above the tank": Case("count = 3", "count = 30", "above the shell"),
    "no pitch": Case('pitch = "200 mm"\n', "", "pitch is missing", INSERT, "[[plate]]"),
    "pitch below the thickness": Case(
        'pitch = "200 mm"\nthickness = "1.5 mm"', 'pitch = "4 mm"\nthickness = "5 mm"',
        "not larger than the plate's thickness",
    ),
    "ring wider than the tank": Case('"60 mm"', '"400 mm"', "not smaller than the inside radius"),
    "arm deeper than the ring": Case(
        'depth = "7 mm"', 'depth = "70 mm"', "the ring's width", NOTHING
    ),
    "unknown arm": Case('kind = "single"', 'kind = "singel"', "not one of", NOTHING),
    "limbs of a single arm": Case(
        'depth = "7 mm"', 'depth = "7 mm", limbs = 3', "a single arm has no limbs", NOTHING
    ),
    # supply, limits, model, accepted
    "nitrogen bottle": Case('"hand pump"', '"nitrogen bottle"', "gas is refused"),
    "compressed air": Case('"hand pump"', '"compressed air"', "gas is refused"),
    "air": Case('"hand pump"', '"air"', "gas is refused"),
    "unknown pump": Case('"hand pump"', '"foot pump"', "not one of"),
    "looser limit": Case('"85 %"', '"97 %"', "looser than 90 %"),
    "limit below the target": Case('growth = "6 %"', 'growth = "2 %"', "lower than the target"),
    "unknown criterion": Case("seed = 3", 'criterion = "mises 2"', "hosford 8"),
    "seed as text": Case("seed = 3", 'seed = "three"', "a whole number", NOTHING),
    "accepted without reason": Case(
        '"cellar at 8 °C and steady, workshop lead, 2026-03-02"', '"yes"', "reason, role and date"
    ),
    "accepted without a date": Case(
        "2026-03-02", "last spring", "reason, role and date"
    ),
    "accepted and unknown": Case("cold_water =", "cold_watr =", "no caution has this code"),
    # TOML itself
    "no quotation marks": Case('wall = "2.0 mm"', "wall = 2.0 mm", "no quotation marks"),
    "open quotation marks": Case('wall = "2.0 mm"', 'wall = "2.0 mm', "do not close"),
    "curled quotation marks": Case('wall = "2.0 mm"', "wall = “2.0 mm”", "curled quotation"),
    "inch sign in the text": Case('wall = "2.0 mm"', 'wall = "0.079""', "inch sign"),
    "colon": Case('wall = "2.0 mm"', 'wall: "2.0 mm"', "a colon"),
    "nothing behind the equals sign": Case(
        '"Bench tank"', "", "nothing written", REPLACE, "name ="
    ),
    "a key twice": Case('wall = "2.0 mm"', 'wall = "2.0 mm"\nwall = "2.1 mm"',
                        "stands twice", REPLACE, 'wall = "2.1 mm"'),
    "a table twice": Case("[water]", "[tank]\n[water]", "stands twice"),
    "open brackets": Case("[[plate]]", "[[plate", "not closed"),
    "a sentence": Case(
        "[water]", "Fill with tap water\n[water]", "not a line of a job file", NOTHING
    ),
}  # fmt: skip
