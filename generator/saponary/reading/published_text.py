"""What a maker's file says to its readers: the texts at given keys, each with its place, and none of its comments.

What stands in `<!-- … -->` is the maker's own, in front matter as in notes: it is taken out here, before any
value is made of a text, so that no page, sheet or label can come by it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from saponary.reading.findings import Place
from saponary.reading.plain import is_list, is_map
from saponary.reading.tree import Path, Tree

BOOK = frozenset(
    {"title", "subtitle", "about", "maker", "place", "emergency", "opening", "note", "keeping", "footer"}
)
PANTRY = frozenset({"name"})
PAGE = frozenset({"title", "menu"})
CLASS = frozenset({"title", "summary", "place", "teacher", "what", "emergency"})


_COMMENT = re.compile(r"<!--.*?(?:-->|\Z)", re.DOTALL)
_WITH_SPACE = re.compile(rf"[ \t]*(?:{_COMMENT.pattern})", re.DOTALL)


def only_seen(text: str) -> str:
    """A text without the maker's own comments, and without the space before each."""
    return _WITH_SPACE.sub("", text) if "<!--" in text else text


def blanked(text: str) -> str:
    """The same with a space for every character of a comment, so that all else stands where it stood."""
    return _COMMENT.sub(lambda comment: " " * len(comment[0]), text) if "<!--" in text else text


def only_seen_in(data: Any) -> Any:
    """Plain data with every text in it as it is seen."""
    if isinstance(data, str):
        return only_seen(data)
    if is_map(data):
        return {key: only_seen_in(value) for key, value in data.items()}
    return [only_seen_in(value) for value in data] if is_list(data) else data


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
