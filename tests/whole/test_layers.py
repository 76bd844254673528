"""Imports run downwards, modules stay small: read from the source itself."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from support import REPOSITORY

PACKAGE = REPOSITORY / "generator" / "saponary"
LAYERS = (
    "quantity",
    "lye",
    "assets",
    "tables",
    "messages",
    "reading",
    "schema",
    "pantry",
    "book",
    "words",
    "label",
    "checks",
    "draw",
    "views",
    "outputs",
    "build",
    "watch",
    "manual",
    "cli",
    "__main__",
)
"""From the bottom up: each may import itself and what stands before it."""

RANK = {name: rank for rank, name in enumerate(LAYERS)}
MODULES = sorted(PACKAGE.rglob("*.py"))


def layer(path: Path) -> str:
    inside = path.relative_to(PACKAGE)
    return inside.parts[0] if len(inside.parts) > 1 else inside.stem


def imported(path: Path) -> set[str]:
    """Dotted names of everything a module imports, inside functions too."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative imports hide the layer"
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_imports_run_downwards(path: Path) -> None:
    own = layer(path)
    if own == "__init__":
        return
    for name in imported(path):
        parts = name.split(".")
        if parts[0] != "saponary" or len(parts) < 2 or parts[1] == "__version__":
            continue
        assert parts[1] in RANK, f"{path} imports {name}, which no layer holds"
        same = parts[1] == own
        assert same or RANK[parts[1]] < RANK[own], f"{own} imports {name}: upwards"


def test_the_engine_needs_nothing_but_python() -> None:
    import sys

    for path in MODULES:
        if layer(path) not in ("quantity", "lye"):
            continue
        for name in imported(path):
            top = name.split(".")[0]
            assert name.startswith(("saponary.lye", "saponary.quantity")) or top in sys.stdlib_module_names, (
                f"{path} imports {name}"
            )
            assert top not in {"os", "pathlib", "io", "socket", "time", "datetime", "random", "subprocess"}, (
                f"{path}: the engine is pure and imports {name}"
            )


MOST_LINES, MOST_OF_A_FUNCTION = 300, 50


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_modules_and_functions_are_small_and_a_module_says_what_it_is_for(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= MOST_LINES
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert (node.end_lineno or 0) - node.lineno < MOST_OF_A_FUNCTION, f"{path}: {node.name} is long"
    assert ast.get_docstring(ast.parse(text)), f"{path} has no docstring"
