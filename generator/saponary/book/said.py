"""What a YAML file says in words of its own: the texts at given keys, each with its place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from saponary.book.findings import Place
from saponary.book.source import Path, Tree

BOOK = frozenset({"title", "subtitle", "about", "maker", "place"})
PANTRY = frozenset({"name"})
CLASS = frozenset({"title", "place", "what"})


def said(tree: Tree, file: str, keys: frozenset[str]) -> Iterator[tuple[Place, str]]:
    """Every text of `tree` that stands at one of `keys`, however deep, in the order of the file."""
    for path, span in sorted(tree.values.items(), key=lambda item: item[1].start):
        if path and path[-1] in keys and isinstance(text := _at(tree.data, path), str):
            yield Place(file, span.line, span.column), text


def _at(data: Any, path: Path) -> Any:
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return None
    return data
