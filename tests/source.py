"""The program's own source, read once for all tests of a process that look into it."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TypeVar

from support import REPOSITORY

PACKAGE = REPOSITORY / "generator" / "saponary"
MODULES = tuple(sorted(PACKAGE.rglob("*.py")))

N = TypeVar("N", bound=ast.AST)


def where(path: Path) -> str:
    """The module's path within the package."""
    return path.relative_to(PACKAGE).as_posix()


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def _by_kind(path: Path) -> Mapping[type[ast.AST], list[ast.AST]]:
    kinds: dict[type[ast.AST], list[ast.AST]] = defaultdict(list)
    for node in ast.walk(tree(path)):
        kinds[type(node)].append(node)
    return kinds


def nodes(path: Path, kind: type[N]) -> list[N]:
    """The nodes of one kind of a module, in the order of `ast.walk`."""
    return _by_kind(path).get(kind, [])  # type: ignore[return-value]
