"""What may import what, held by reading the imports of the tree."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
HOUSES = ("grammar", "sat", "checker")
CORE = (
    "grammar/vocabulary.py",
    "sat/rules.py",
    "sat/oracle.py",
    "checker/board.py",
    "checker/puzzle.py",
    "checker/judge.py",
    "checker/obstacles.py",
    "checker/sight.py",
    "checker/supposition.py",
    "checker/replay.py",
    *(f"checker/catalogue/{path.name}" for path in sorted((ROOT / "checker" / "catalogue").glob("*.py"))),
)
"""What has to be trusted, and what need not be (the pattern catalogue, the guesses at what a failed step meant): none of it
reads, writes or words anything."""

GUESSES = ("checker/obstacles.py", "checker/sight.py", "checker/supposition.py")

FILES = sorted(path for house in HOUSES for path in (ROOT / house).rglob("*.py"))


def imports(path: Path) -> set[str]:
    """Every module that a file imports, relative ones as they resolve below ``stepwarrant``."""
    package = ("stepwarrant", *path.relative_to(ROOT).parent.parts)
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = list(package[: len(package) - node.level + 1]) if node.level else []
            name = ".".join([*base, *(node.module or "").split(".")]).rstrip(".")
            found |= {name, *(f"{name}.{alias.name}" for alias in node.names)}
    return found


def test_the_tree_is_read() -> None:
    assert len(FILES) > 25
    assert "stepwarrant.sat.oracle" in imports(ROOT / "checker" / "judge.py")


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_imports_run_one_way(path: Path) -> None:
    house = path.relative_to(ROOT).parts[0]
    used = {name for name in imports(path) if name.startswith("stepwarrant.")}
    if house == "grammar":
        assert all(name.startswith("stepwarrant.grammar") for name in used)
    if house == "sat":
        allowed = ("stepwarrant.sat", "stepwarrant.grammar.vocabulary")
        assert all(name.startswith(allowed) for name in used)
    if house != "sat":
        assert not any(name.split(".")[0] == "pysat" for name in imports(path))


@pytest.mark.parametrize("name", CORE)
def test_the_core_is_pure(name: str) -> None:
    outer = ("wording", "report", "text", "json_report", "main", "expect", "pages", "findings", "deliver", "inputs")
    used = imports(ROOT / name)
    assert not used & {"os", "sys", "io", "pathlib", "click", "jinja2", "json", "time", "random"}
    assert not any(part in outer for module in used if module.startswith("stepwarrant.checker.") for part in module.split("."))
    tree = ast.parse((ROOT / name).read_text(encoding="utf-8"))
    called = {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    assert not called & {"open", "print", "input"}


def test_the_trusted_core_can_be_read_in_one_sitting() -> None:
    trusted = [ROOT / name for name in CORE if "catalogue" not in name and name not in GUESSES]
    assert sum(len(path.read_text(encoding="utf-8").splitlines()) for path in trusted) < 1500


def test_the_top_level_is_as_agreed() -> None:
    import subprocess

    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "CHANGELOG.md", *HOUSES, "tests", "example_paths"}
    assert {name for name in top if not name.startswith(".")} <= agreed
