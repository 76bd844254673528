"""Imports run downwards, modules stay small: read from the source itself."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

from source import MODULES, PACKAGE, nodes, tree, where

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


def layer(path: Path) -> str:
    inside = path.relative_to(PACKAGE)
    return inside.parts[0] if len(inside.parts) > 1 else inside.stem


def imported(path: Path) -> set[str]:
    """Dotted names of everything a module imports, inside functions too."""
    names = {alias.name for node in nodes(path, ast.Import) for alias in node.names}
    for node in nodes(path, ast.ImportFrom):
        assert node.level == 0, f"{path}: relative imports hide the layer"
        names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def upwards(path: Path) -> Iterator[str]:
    """What is wrong with a module's imports."""
    own = layer(path)
    for name in sorted(imported(path)):
        parts = name.split(".")
        if parts[0] != "saponary" or len(parts) < 2 or parts[1] in ("__version__", own):
            continue
        if parts[1] not in RANK:
            yield f"{where(path)} imports {name}, which no layer holds"
        elif RANK[parts[1]] > RANK[own]:
            yield f"{where(path)} imports {name}: upwards"


def test_imports_run_downwards() -> None:
    assert len({layer(path) for path in MODULES} & RANK.keys()) > 15, "the source was read"
    assert [fault for path in MODULES if layer(path) != "__init__" for fault in upwards(path)] == []


def test_the_engine_needs_nothing_but_python() -> None:
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


def too_large_or_unsaid(path: Path) -> Iterator[str]:
    """What is wrong with a module's size, or its docstring."""
    lines = len(path.read_text(encoding="utf-8").splitlines())
    if lines > MOST_LINES:
        yield f"{where(path)} has {lines} lines"
    for node in (*nodes(path, ast.FunctionDef), *nodes(path, ast.AsyncFunctionDef)):
        if (node.end_lineno or 0) - node.lineno >= MOST_OF_A_FUNCTION:
            yield f"{where(path)}: {node.name} is long"
    if not ast.get_docstring(tree(path)):
        yield f"{where(path)} has no docstring"


def test_modules_and_functions_are_small_and_a_module_says_what_it_is_for() -> None:
    assert [fault for path in MODULES for fault in too_large_or_unsaid(path)] == []
