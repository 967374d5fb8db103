"""Imports run one way: the table in DEVELOPERS.md, read here, is what may import what."""

from __future__ import annotations

import ast
import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.metadata import packages_distributions
from pathlib import Path

import networkx
import pytest

REPOSITORY = Path(__file__).parent.parent
PACKAGE = REPOSITORY / "guidec"
HEAVY = {
    "weasyprint",
    "PIL",
    "jinja2",
    "networkx",
    "rich",
    "jsonschema",
    "pydyf",
    "fontTools",
    "wcwidth",
    "sqlite3",
}


@dataclass(frozen=True)
class Import:
    """One import: the module it stands in, the one it names, the line.

    `inside`: in a function whose docstring does not speak of importing or loading.
    """

    module: str
    target: str
    line: int
    inside: bool


def module_name(path: Path) -> str:
    return ".".join(path.relative_to(REPOSITORY).with_suffix("").parts).removesuffix(".__init__")


@cache
def modules() -> dict[str, Path]:
    return {module_name(path): path for path in sorted(PACKAGE.rglob("*.py"))}


def imports(module: str) -> Iterator[Import]:
    tree = ast.parse(modules()[module].read_text(encoding="utf-8"))
    functions = [node for node in ast.walk(tree) if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))]
    functions = [one for one in functions if not re.search(r"\b(import|load)", ast.get_docstring(one) or "")]
    inner = {id(node) for function in functions for node in ast.walk(function)}
    for node in ast.walk(tree):
        for target in _targets(module, node):
            yield Import(module, target, getattr(node, "lineno", 0), id(node) in inner)


def _targets(module: str, node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if not isinstance(node, ast.ImportFrom):
        return []
    assert node.level == 0, f"{module}: relative imports hide where an arrow goes"
    name = node.module or ""
    whole = [f"{name}.{alias.name}" for alias in node.names]
    return [target if target in modules() else name for target in whole]


def part(module: str) -> str:
    """`guidec.notes.reader` -> `notes`; the package itself is ``."""
    pieces = module.split(".")
    return pieces[1] if len(pieces) > 1 else ""


def table() -> dict[str, set[str]]:
    text = (REPOSITORY / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = re.search(r"^```imports\n(.*?)^```$", text, re.M | re.S)
    assert block, "DEVELOPERS.md has lost its table of imports"
    rows = {name: set(allowed) for name, *allowed in map(str.split, block[1].splitlines())}
    common = {name for name, allowed in rows.items() if allowed == {"everybody"}}
    return {name: set() if name in common else allowed | common for name, allowed in rows.items()}


def own_imports() -> list[Import]:
    found = [one for module in modules() for one in imports(module)]
    return [one for one in found if one.target.split(".")[0] == "guidec"]


def test_every_part_is_in_the_table_and_the_table_runs_one_way():
    allowed = table()
    parts = {part(module) for module in modules()} - {""}
    assert parts <= set(allowed), f"not in the table of DEVELOPERS.md: {sorted(parts - set(allowed))}"
    rows = list(allowed)
    for at, name in enumerate(rows):
        later = allowed[name] - set(rows[:at])
        assert not later, f"`{name}` may import {sorted(later)}, which stand below it"


def test_no_import_runs_against_the_table():
    allowed = table()
    wrong = [
        f"{one.module}:{one.line} imports {one.target}"
        for one in own_imports()
        if part(one.module) and part(one.target) not in {"", part(one.module), *allowed[part(one.module)]}
    ]
    assert wrong == []


def test_the_package_itself_imports_nothing_of_its_own():
    assert [one for one in own_imports() if one.module == "guidec"] == []


def test_no_modules_import_each_other_in_a_circle():
    graph = networkx.DiGraph((one.module, one.target) for one in own_imports() if one.module != one.target)
    assert list(networkx.simple_cycles(graph)) == []


def test_imports_inside_functions_say_why():
    silent = []
    for module in modules():
        lines = modules()[module].read_text(encoding="utf-8").splitlines()
        hidden = sorted({one.line for one in imports(module) if one.inside})
        explained = {line for line in hidden if "#" in lines[line - 1] or "#" in lines[line - 2]}
        silent += [f"{module}:{at}" for at in hidden if not {at, at - 1, at - 2} & explained]
    assert silent == []


LOOK = """
import json, sys
from guidec.cli import main
status = main(["check", sys.argv[1]])
print(json.dumps({"status": status, "modules": sorted(sys.modules)}))
"""


def test_a_check_imports_nothing_heavy(tmp_path: Path):
    note = tmp_path / "lamp.md"
    note.write_text("# Lamp\n\n## Open\n\n1. Undo {screw A: 2x PH1 M3x8}.\n2. Lift off {part lid; class=cover}.\n")
    run = subprocess.run([sys.executable, "-c", LOOK, str(note)], capture_output=True, text=True, check=True)
    found = json.loads(run.stdout.splitlines()[-1])
    assert found["status"] == 0, run.stdout
    assert "markdown_it" in found["modules"], "the check must have read the note"
    assert {name.split(".")[0] for name in found["modules"]} & HEAVY == set()


def _required(path: Path) -> set[str]:
    pins = [line.split("==")[0] for line in path.read_text(encoding="utf-8").splitlines() if "==" in line]
    return {_plain(pin) for pin in pins}


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name.strip()).lower()


def test_every_library_used_is_declared_and_pinned():
    project = tomllib.loads((REPOSITORY / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = {_plain(re.split(r"[<>=\[;! ]", line)[0]) for line in project["dependencies"]}
    extras = project.get("optional-dependencies", {})
    offered = {_plain(re.split(r"[<>=\[;! ]", line)[0]) for lines in extras.values() for line in lines}
    homes = packages_distributions()
    used = {one.target.split(".")[0] for module in modules() for one in imports(module)}
    for name in sorted(used - set(sys.stdlib_module_names) - {"guidec"}):
        distributions = {_plain(home) for home in homes.get(name, [name])}
        assert distributions & (declared | offered), f"`{name}` is imported and not declared in pyproject.toml"
    pinned = _required(REPOSITORY / "requirements" / "run.txt")
    assert declared <= pinned, f"not pinned: {sorted(declared - pinned)}"
    tried = pinned | _required(REPOSITORY / "requirements" / "test.txt")
    assert offered <= tried, f"no extra goes untested: {sorted(offered - tried)}"


@pytest.mark.parametrize("path", ["requirements/run.txt", "requirements/test.txt", "requirements/tables.txt"])
def test_pins_are_exact(path: str):
    lines = (REPOSITORY / path).read_text(encoding="utf-8").splitlines()
    loose = [line for line in lines if line and not line.startswith(("#", "-r ")) and "==" not in line]
    assert loose == []
