"""The laws of the house as functions: source text in, list of faults out (empty = clean).

Floors: 0 si, errors, sources, units; 1 steel, shape; 2 forming, plates, water; 3 planning.
tests/test_house_rules.py applies them to the repository and shows that each can fail.
"""

import ast
import inspect
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "stretchform"
FORMULA_FOLDERS = ("steel", "shape", "forming", "plates", "water")  # every function cites
LOW_FOLDERS = (*FORMULA_FOLDERS, "planning")  # floors 1 to 3
LONGEST_FILE = 400
KEY = r"[a-z0-9]+(-[a-z0-9]+)+"

# Words that would cite papers which a reader of this repository cannot open.
PRIVATE_WORDS = tuple(
    "".join(parts)
    for parts in (
        ("shar", "ed/"),
        ("/wo", "rk/"),
        ("/ro", "ot/"),
        ("/ho", "me/"),
        ("seed ", "document"),
        ("mech", "anics.md"),
        ("stand", "ards.md"),
        ("mater", "ials.md"),
        ("saf", "ety.md"),
        ("intern", "als.md"),
        ("des", "ign.md"),
        ("bri", "ef.md"),
        ("reference ", "folder"),
        ("issues ", "show"),
        ("Co-Auth", "ored-By"),
    )
)
DISK_CALLS = {
    *(
        "open",
        "read_text",
        "write_text",
        "read_bytes",
        "write_bytes",
        "mkdir",
        "rmdir",
        "touch",
    ),
    *("unlink", "iterdir", "glob", "rglob", "loadtxt", "genfromtxt", "savetxt", "fromfile"),
    *("listdir", "scandir", "remove", "makedirs", "tofile"),
}
DISK_MODULES = {"shutil", "tempfile", "sqlite3", "fileinput"}
HARMLESS = {"shutil.get_terminal_size"}  # asks for the width of a screen


def python_files(*folders: str) -> list[Path]:
    """Modules of the package; of some folders only, when named."""
    starts = [PACKAGE / folder for folder in folders] or [PACKAGE]
    return sorted(path for start in starts for path in start.rglob("*.py"))


def public_functions(tree: ast.Module) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Public functions and the public methods of public classes; properties are fields."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for member in node.body:
                if isinstance(member, ast.FunctionDef) and not member.name.startswith("_"):
                    decorators = [ast.unparse(each) for each in member.decorator_list]
                    if "property" not in decorators:
                        yield f"{node.name}.{member.name}", member


def bare_floats(text: str) -> list[str]:
    """Arguments and results annotated with `float` instead of a quantity of si.py."""
    faults = []
    for name, function in public_functions(ast.parse(text)):
        arguments = function.args
        every = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
        every += [extra for extra in (arguments.vararg, arguments.kwarg) if extra]
        parts = [(argument.arg, argument.annotation) for argument in every]
        for part, annotation in [*parts, ("result", function.returns)]:
            if annotation is not None and _names_float(annotation):
                faults.append(f"{name}: {part} is a bare float; name its quantity from si.py")
    return faults


def _names_float(annotation: ast.expr) -> bool:
    if isinstance(annotation, ast.Constant) and isinstance(annotation.value, str):
        annotation = ast.parse(annotation.value, mode="eval").body
    return any(
        isinstance(node, ast.Name) and node.id == "float" for node in ast.walk(annotation)
    )


def undocumented(text: str, keys: Iterable[str], needs_formula: bool = False) -> list[str]:
    """Functions without a Source in the bibliography or without a test that names them.

    With `needs_formula` only functions whose docstring shows a formula, an indented line, must
    cite: planning mostly arranges what lower floors compute, but a formula needs its source
    wherever it stands.
    """
    faults = []
    known = set(keys)
    for name, function in public_functions(ast.parse(text)):
        if "." in name:
            continue  # methods of a curve or a record: the class states its law
        docstring = inspect.cleandoc(ast.get_docstring(function) or "")
        if needs_formula and not _has_formula(docstring):
            continue
        faults += [f"{name}: {fault}" for fault in _docstring_faults(name, docstring, known)]
    return faults


def _has_formula(docstring: str) -> bool:
    return any(line.startswith("    ") for line in docstring.splitlines())


def _docstring_faults(name: str, docstring: str, known: set[str]) -> list[str]:
    cited = cited_keys(docstring)
    faults = [f"its source {key!r} is not in sources.toml" for key in cited if key not in known]
    if not cited:
        faults.append("no line `Source: <key in materials/sources.toml>, <place>`")
    elif not re.search(r"^Source: [\w-]+, \S", docstring, re.MULTILINE):
        faults.append("its Source names no place")
    return faults + _test_faults(name, _block(docstring, "Checked:"))


def _test_faults(name: str, checked: str) -> list[str]:
    tests = re.findall(r"tests/[\w/.-]+?\.py", checked)
    missing = [test for test in tests if not (ROOT / test).is_file()]
    if missing or not tests:
        lost = [f"its test {test} does not exist" for test in missing]
        return lost or ["no line `Checked: <test file>`"]
    texts = [(ROOT / test).read_text(encoding="utf-8") for test in tests]
    if not any(re.search(rf"\b{name}\b", text) for text in texts):
        return [f"{' and '.join(tests)} never names it"]
    return []


def cited_keys(docstring: str) -> list[str]:
    """Keys of the Source lines: the first word, and words with hyphens behind semicolons."""
    block = re.sub(r"\([^()]*\)", "", _block(docstring, "Source:"))
    first, *others = [part.split(",")[0].strip(" .") for part in block.split(";")]
    return [first] * bool(first) + [key for key in others if re.fullmatch(KEY, key)]


def _block(docstring: str, label: str) -> str:
    """What follows a label up to the next label or blank line, on one line."""
    pattern = rf"^{label}(.*?)(?=^\s*$|^[A-Z]\w+(?::| [A-Z])|\Z)"
    found = re.search(pattern, docstring, re.MULTILINE | re.DOTALL)
    return " ".join(found.group(1).split()) if found else ""


def unlisted_sources(text: str) -> list[str]:
    """Keys cited in docstrings of a module that its SOURCES does not list."""
    tree = ast.parse(text)
    listed = set(module_sources(tree))
    cited = {
        key
        for _, function in public_functions(tree)
        for key in cited_keys(inspect.cleandoc(ast.get_docstring(function) or ""))
    }
    return [f"SOURCES does not list {key!r}" for key in sorted(cited - listed)]


def module_sources(tree: ast.Module) -> list[str]:
    """The keys in the tuple SOURCES of a module; none when it has no such tuple."""
    for node in tree.body:
        targets = node.targets if isinstance(node, ast.Assign) else []
        if any(isinstance(target, ast.Name) and target.id == "SOURCES" for target in targets):
            assert isinstance(node, ast.Assign)
            return list(ast.literal_eval(node.value))
    return []


def prints(text: str) -> list[str]:
    """Calls of print and writes to the standard streams."""
    faults = []
    for node in ast.walk(ast.parse(text)):
        called = ast.unparse(node.func) if isinstance(node, ast.Call) else ""
        if called == "print" or called.endswith(("stdout.write", "stderr.write")):
            faults.append(f"line {node.lineno}: only commands print")
    return faults


def disk_access(text: str) -> list[str]:
    """Calls that open or list files, and uses of modules made for that."""
    faults = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func).split(".")[-1]
            nowhere = "devnull" in ast.unparse(node)  # closing a broken pipe opens no file
            if called in DISK_CALLS and not nowhere:
                faults.append(f"line {node.lineno}: {called} touches the disk outside files")
            if _of_disk_module(ast.unparse(node.func)):
                faults.append(f"line {node.lineno}: {ast.unparse(node.func)} outside files")
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [f"{node.module}.{alias.name}" for alias in node.names]
            faults += [f"line {node.lineno}: {each}" for each in names if _of_disk_module(each)]
    return faults


def _of_disk_module(name: str) -> bool:
    return name.split(".")[0] in DISK_MODULES and name not in HARMLESS


def unit_imports(text: str) -> list[str]:
    """Imports of the units reader, or of pint itself, below the floor of files."""
    return [
        f"line {node.lineno}: import of {module} on a floor of plain SI numbers"
        for node in ast.walk(ast.parse(text))
        for module in _imported(node)
        if module.startswith(("stretchform.units", "pint"))
    ]


def _imported(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom) and node.module:
        return [f"{node.module}.{alias.name}" for alias in node.names] + [node.module]
    return []


def too_long(text: str) -> list[str]:
    """A file of more than 400 lines."""
    count = len(text.splitlines())
    return [f"{count} lines, at most {LONGEST_FILE}"] if count > LONGEST_FILE else []


def private_words(text: str) -> list[str]:
    """Words that cite papers or places which a reader of the repository cannot open."""
    return [
        f"line {number}: {word!r}"
        for number, line in enumerate(text.splitlines(), 1)
        for word in PRIVATE_WORDS
        if word.lower() in line.lower()
    ]
