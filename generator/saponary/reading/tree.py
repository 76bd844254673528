"""What is read from a YAML text: plain data, and where every value and key of it stands."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Any, NamedTuple, TypeAlias

from saponary.reading.findings import Place

MAX_FAULTS = 200
"""Faults of one file that are told; more are counted."""

Path: TypeAlias = tuple[str | int, ...]

_LINE_END = re.compile(r"\r\n|\r|\n")


class Lines:
    """Line and column, from 1, of every character; a line ends at \\n, \\r\\n or \\r and nowhere else."""

    def __init__(self, text: str, first: int = 1) -> None:
        self.first = first
        self.starts = [0, *(end.end() for end in _LINE_END.finditer(text))]

    def at(self, index: int) -> tuple[int, int]:
        row = bisect_right(self.starts, index) - 1
        return row + self.first, index - self.starts[row] + 1


def shown(value: object) -> str:
    """A value as a message shows it: quoted, control characters escaped, cut short."""
    text = repr(value if not isinstance(value, str) else value[:60])
    return text if len(text) <= 42 else text[:40] + "…"


class Span(NamedTuple):
    """Where a scalar stands in the text: character offsets, and line and column from 1."""

    start: int
    end: int
    line: int
    column: int
    style: str = ""


@dataclass
class Tree:
    """Plain data (str, list, dict, None) with the span of every value and key by its path."""

    data: Any = None
    values: dict[Path, Span] = field(default_factory=dict[Path, Span])
    keys: dict[Path, Span] = field(default_factory=dict[Path, Span])

    def nearest(self, path: Path, *, key: bool = False) -> Span | None:
        """The span at `path`, or of its closest ancestor that has one."""
        for end in range(len(path), -1, -1):
            if key and path[:end] in self.keys:
                return self.keys[path[:end]]
            if path[:end] in self.values:
                return self.values[path[:end]]
        return None

    def place(self, file: str, path: Path, *, key: bool = False) -> Place:
        """Where a value (or its key) stands in `file`, or the closest ancestor that has a place."""
        return placed(self.nearest(path, key=key), file)


def placed(span: Span | None, file: str) -> Place:
    """A span of a file as a place; the file alone where there is none."""
    return Place(file, span.line, span.column) if span else Place(file)
