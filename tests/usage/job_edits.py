"""Seeded random edits of a job file, of the kind that people, editors and mail programs make."""

from collections.abc import Callable
from random import Random

UNITS = ("mm", "cm", "m", "in", '"', "thou", "ft", "bar", "psi", "ksi", "MPa", "mPa", "kPa")
UNITS += ("%", "per cent", "°C", "C", "°F", "l", "gal", "mg/l", "ppm", "", " ", "Mm", "N/mm²")
CHARACTERS = "0123456789.,;:-+_/\\'\"[]{}()=# \t\nabcmxyzABCMXYZ°%µ½²−–“”"
CHARACTERS += "\u00a0\u200b\u202e\ufeffΩ漢🙂\x00\x07"
VALUES = ("0", "-1", "nan", "inf", "1e308", "1e-308", "999999999999", "0.5", '""', "true", "[]")
VALUES += ('"none"', '"air"', '"largest"', "{}", "[[1]]", "1979-05-27", "'x'", '"""a\nb"""')


def _delete_line(lines: list[str], random: Random) -> None:
    del lines[random.randrange(len(lines))]


def _double_line(lines: list[str], random: Random) -> None:
    at = random.randrange(len(lines))
    lines.insert(random.randrange(len(lines)), lines[at])


def _swap_lines(lines: list[str], random: Random) -> None:
    one, other = random.randrange(len(lines)), random.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]


def _change_digit(lines: list[str], random: Random) -> None:
    _change(lines, random, str.isdigit, lambda _: random.choice("0123456789.,-e"))


def _change_character(lines: list[str], random: Random) -> None:
    _change(lines, random, lambda c: True, lambda _: random.choice(CHARACTERS))


def _insert_character(lines: list[str], random: Random) -> None:
    _change(lines, random, lambda c: True, lambda c: c + random.choice(CHARACTERS))


def _delete_character(lines: list[str], random: Random) -> None:
    _change(lines, random, lambda c: True, lambda _: "")


def _change(
    lines: list[str],
    random: Random,
    fits: Callable[[str], bool],
    new: Callable[[str], str],
) -> None:
    places = [(n, i) for n, line in enumerate(lines) for i, c in enumerate(line) if fits(c)]
    if places:
        line, at = random.choice(places)
        text = lines[line]
        lines[line] = text[:at] + new(text[at]) + text[at + 1 :]


def _change_unit(lines: list[str], random: Random) -> None:
    places = [n for n, line in enumerate(lines) if ' = "' in line and line.rstrip()[-1] == '"']
    if places:
        line = random.choice(places)
        number = lines[line].rsplit(" ", 1)[0]
        lines[line] = f'{number} {random.choice(UNITS)}"'


def _change_value(lines: list[str], random: Random) -> None:
    places = [n for n, line in enumerate(lines) if " = " in line]
    if places:
        line = random.choice(places)
        lines[line] = lines[line].split(" = ")[0] + " = " + random.choice(VALUES)


def _scale_number(lines: list[str], random: Random) -> None:
    """Another power of ten: the slip that still reads as a number."""
    places = [n for n, line in enumerate(lines) if ' = "' in line]
    line = random.choice(places)
    key, _, value = lines[line].partition(' = "')
    number, _, rest = value.partition(" ")
    try:
        scaled = float(number) * 10.0 ** random.randint(-4, 4)
    except ValueError:
        return
    lines[line] = f'{key} = "{scaled:g} {rest}'


EDITS: tuple[Callable[[list[str], Random], None], ...] = (
    _delete_line,
    _double_line,
    _swap_lines,
    _change_digit,
    _change_character,
    _insert_character,
    _delete_character,
    _change_unit,
    _change_value,
    _scale_number,
)


def edited(text: str, seed: int) -> str:
    """The text after one to four edits; the same seed gives the same text."""
    random = Random(seed)
    lines = text.split("\n")
    for _ in range(random.choice((1, 1, 2, 4))):
        random.choice(EDITS)(lines, random)
        if not lines:
            return ""
    return "\n".join(lines)
