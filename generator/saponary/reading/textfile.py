"""A file of the book made of front matter and text, as read, whose characters have places."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from saponary.reading.findings import Finding, Place
from saponary.reading.tree import Lines, Tree


@dataclass
class TextFile:
    """`file` is its path in the book; the text below the front matter begins at `body_start`."""

    file: str
    slug: str
    text: str = ""
    tree: Tree = field(default_factory=Tree)
    body_start: int = 0
    findings: list[Finding] = field(default_factory=list[Finding])

    @property
    def body(self) -> str:
        return self.text[self.body_start :]

    @cached_property
    def _lines(self) -> Lines:
        return Lines(self.text)

    def place_at(self, offset: int) -> Place:
        """Line and column of a character of the file; a line ends at \\n, \\r\\n or \\r."""
        line, column = self._lines.at(offset)
        if line == 1 and self.text.startswith("\ufeff"):
            column = max(1, column - 1)
        return Place(self.file, line, column)
