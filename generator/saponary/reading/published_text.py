"""What a YAML file says in words of its own: the texts at given keys, each with its place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from saponary.reading.findings import Place
from saponary.reading.tree import Path, Tree

BOOK = frozenset({"title", "subtitle", "about", "maker", "place", "emergency"})
PANTRY = frozenset({"name"})
CLASS = frozenset({"title", "place", "teacher", "what", "emergency"})


@dataclass(frozen=True)
class Said:
    """A text that is published, and where it stands; `within` gives the places of its characters."""

    text: str
    place: Place
    within: Callable[[int], Place] | None = None

    def at(self, offset: int) -> Place:
        """Where a character of the text stands, or the text's beginning where that cannot be told."""
        return self.within(offset) if self.within else self.place


def said(tree: Tree, file: str, keys: frozenset[str]) -> Iterator[Said]:
    """Every text of `tree` that stands at one of `keys`, however deep, in the order of the file.

    What is waived, and why, is for the maker alone.
    """
    for path, span in sorted(tree.values.items(), key=lambda item: item[1].start):
        if (
            path
            and path[0] != "waive"
            and path[-1] in keys
            and isinstance(text := value_at(tree.data, path), str)
        ):
            yield Said(text, Place(file, span.line, span.column))


def value_at(data: Any, path: Path) -> Any:
    """What stands at a path of plain data; None where nothing does."""
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return None
    return data
