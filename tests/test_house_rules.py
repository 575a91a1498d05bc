"""The house rules hold in the repository, and every rule can fail.

What is checked: signatures that name quantities (floors 1 to 3); Source and Checked in every
public function of steel, shape, forming, plates and water, and in planning wherever a docstring
shows a formula (an indented line), and the test so named must name the function; printing in
commands only; the disk in files only; files of at most 400 lines; no units below files; no
citation of papers that a reader cannot open; steels that load; a bibliography that knows every
key; and the import contracts.
"""

import ast
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import house_rules as rules
import pytest
from house_rules import FORMULA_FOLDERS, LOW_FOLDERS, PACKAGE, ROOT, python_files

from stretchform.files.judged import load_judged
from stretchform.files.steels import list_steels, load_steel
from stretchform.steel.grade import Certificate

BIBLIOGRAPHY = tomllib.loads((ROOT / "materials/sources.toml").read_text(encoding="utf-8"))
TEXT_KINDS = {".py", ".toml", ".csv", ".md", ".txt", ".html", ".css", ".json", ".jinja"}


def require_clean(files, rule):
    """Apply one rule to files and fail with all faults, each with its file."""
    found = []
    for path in files:
        text = path.read_text(encoding="utf-8")
        found += [f"{path.relative_to(ROOT)}: {fault}" for fault in rule(text)]
    assert files, "no file to check"
    assert not found, "\n".join(found)


def outside(*folders):
    return [
        path for path in python_files() if path.relative_to(PACKAGE).parts[0] not in folders
    ]


def repository_texts():
    places = ["stretchform", "materials", "tests", "examples", ".ci"]
    files = [path for place in places for path in (ROOT / place).rglob("*") if path.is_file()]
    files += [path for path in ROOT.iterdir() if path.is_file()]
    # other folders beginning with a dot are caches of tools
    return [path for path in files if path.suffix in TEXT_KINDS or path.parent.name == ".ci"]


def test_signatures_name_quantities_and_no_bare_float():
    require_clean(python_files(*LOW_FOLDERS), rules.bare_floats)


def test_every_formula_names_its_source_and_the_test_that_checks_it():
    def rule(text):
        return rules.undocumented(text, BIBLIOGRAPHY)

    require_clean(python_files(*FORMULA_FOLDERS), rule)


def test_planning_names_source_and_test_wherever_it_shows_a_formula():
    def rule(text):
        return rules.undocumented(text, BIBLIOGRAPHY, needs_formula=True)

    require_clean(python_files("planning"), rule)


def test_every_module_lists_the_sources_its_docstrings_cite():
    require_clean(python_files(*FORMULA_FOLDERS), rules.unlisted_sources)


def test_every_listed_source_stands_in_the_bibliography():
    def rule(text):
        keys = rules.module_sources(ast.parse(text))
        return [f"SOURCES names {key!r}, unknown" for key in keys if key not in BIBLIOGRAPHY]

    require_clean(python_files(), rule)


@pytest.mark.parametrize("key", list(BIBLIOGRAPHY))
def test_every_entry_of_the_bibliography_is_complete(key):
    entry = BIBLIOGRAPHY[key]
    assert set(entry) == {"title", "place", "licence"}
    assert all(isinstance(value, str) and value.strip() for value in entry.values())


def test_only_commands_print():
    require_clean(outside("commands"), rules.prints)


def test_only_files_touches_the_disk():
    require_clean(outside("files"), rules.disk_access)


def test_no_file_is_longer_than_400_lines():
    require_clean(python_files(), rules.too_long)


def test_floors_one_to_three_hold_plain_si_numbers():
    require_clean(python_files(*LOW_FOLDERS), rules.unit_imports)


def test_nothing_cites_papers_that_a_reader_cannot_open():
    require_clean(repository_texts(), rules.private_words)


def test_the_top_of_the_repository_holds_what_it_should():
    allowed = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"}
    allowed |= {"stretchform", "materials", "tests", "examples"}
    built = {"dist", "build"}  # left by packaging, ignored by git
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert names - built <= allowed


@pytest.mark.parametrize("card", list_steels(), ids=lambda card: card.key)
def test_every_shipped_steel_loads_with_sources_for_all_its_numbers(card):
    # invented strengths of a usual annealed sheet, for the grades that ask for a certificate
    needed = Certificate(300e6, 640e6, proof_10=335e6) if card.needs_certificate else None
    steel = load_steel(card.key, needed, "test", load_judged())
    assert steel.key == card.key
    assert steel.proof_02 < steel.tensile
    assert steel.curve.stress(0.05) > 0.0
    assert {datum.source for _, datum in steel.data} <= set(BIBLIOGRAPHY)


def test_every_steel_file_in_materials_is_listed():
    files = {path.name for path in (ROOT / "materials").glob("*.toml")}
    assert len(list_steels()) == len(files - {"sources.toml", "forming.toml"})


def test_import_contracts_hold():
    tool = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    assert tool, "lint-imports is missing: pip install -e '.[test]'"
    done = subprocess.run([tool, "--no-cache"], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


CITING = '''
def area(radius: Metre) -> SquareMetre:
    """Area of a disc.

        A = pi r²

    Source: {source}
    Checked: {test}
    """
'''
GOOD = {
    "source": "own-derivation, plane geometry.",
    "test": "tests/test_house_rules.py (here).",
}
BAD_DOCSTRINGS = {
    "no docstring": "def area(radius: Metre) -> SquareMetre:\n    return radius",
    "unknown source": CITING.format(**{**GOOD, "source": "nobody-1900, page 1."}),
    "second source unknown": CITING.format(
        **{**GOOD, "source": "own-derivation, x; no-body, y"}
    ),
    "source without a place": CITING.format(**{**GOOD, "source": "own-derivation"}),
    "test that does not exist": CITING.format(**{**GOOD, "test": "tests/test_nothing.py."}),
    "test that never names it": CITING.format(**{**GOOD, "test": "tests/conftest.py."}),
    "no test": CITING.format(**{**GOOD, "test": "by hand."}),
}


def test_a_function_that_cites_source_and_test_passes():
    text = CITING.format(**GOOD)
    assert rules.undocumented(text, BIBLIOGRAPHY) == []
    assert rules.unlisted_sources("SOURCES = ('own-derivation',)\n" + text) == []


@pytest.mark.parametrize("fault", list(BAD_DOCSTRINGS))
def test_a_poor_docstring_is_found(fault):
    assert len(rules.undocumented(BAD_DOCSTRINGS[fault], BIBLIOGRAPHY)) >= 1


def test_planning_is_only_asked_where_it_shows_a_formula():
    plain = 'def arrange(job: Job) -> Plan:\n    """Steps of the plan."""\n'
    assert rules.undocumented(plain, BIBLIOGRAPHY, needs_formula=True) == []
    formula = CITING.format(**{**GOOD, "source": "nobody, page 1."})
    assert len(rules.undocumented(formula, BIBLIOGRAPHY, needs_formula=True)) == 1


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        (rules.bare_floats, "def f(x: float) -> Metre: ..."),
        (rules.bare_floats, "def f(x: Metre) -> tuple[float, int]: ..."),
        (rules.bare_floats, "def f(*, x: 'float | None' = None) -> Metre: ..."),
        (rules.bare_floats, "class A:\n    def f(self, x: float) -> Metre: ..."),
        (rules.prints, "print(1)"),
        (rules.prints, "import sys\nsys.stdout.write('a')"),
        (rules.disk_access, "open('a')"),
        (rules.disk_access, "path.read_text()"),
        (rules.disk_access, "import shutil\nshutil.rmtree('a')"),
        (rules.disk_access, "from tempfile import mkdtemp"),
        (rules.unit_imports, "from stretchform import units"),
        (rules.unit_imports, "import stretchform.units.spellings"),
        (rules.unit_imports, "def f():\n    import pint"),
        (rules.too_long, "x = 1\n" * 401),
        (rules.private_words, "# see " + rules.PRIVATE_WORDS[0] + "checks"),
        (rules.unlisted_sources, CITING.format(**GOOD)),
    ],
)
def test_every_rule_finds_the_fault_it_is_made_for(rule, text):
    assert len(rule(text)) >= 1


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        (rules.bare_floats, "def f(x: Metre, n: int) -> NDArray[np.float64]: ..."),
        (rules.bare_floats, "class A:\n    @property\n    def f(self) -> float: ..."),
        (rules.bare_floats, "def _private(x: float) -> float: ..."),
        (rules.bare_floats, "@dataclass\nclass A:\n    value: float"),
        (rules.too_long, "x = 1\n" * 400),
        (rules.unit_imports, "from stretchform.si import Metre"),
        (rules.disk_access, "import shutil\nshutil.get_terminal_size()"),
        (rules.disk_access, "nowhere = os.open(os.devnull, os.O_WRONLY)"),
    ],
)
def test_rules_leave_alone_what_is_allowed(rule, text):
    assert rule(text) == []
