"""Edits of a maker's file: stretches of its own text and what replaces them, every other byte left alone."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from saponary.reading.textfile import TextFile


class Edit(NamedTuple):
    """Replace the text between two offsets."""

    start: int
    end: int
    new: str


def apply(text: str, changes: Iterable[Edit]) -> str:
    """The text with its edits made; edits do not overlap."""
    out, last = list[str](), 0
    for edit in sorted(changes, key=lambda e: e.start):
        out += [text[last : edit.start], edit.new]
        last = edit.end
    return "".join([*out, text[last:]])


def newline_of(text: str) -> str:
    """How a text ends its lines."""
    return "\r\n" if "\r\n" in text else "\r" if "\r" in text and "\n" not in text else "\n"


def closing_line(file: TextFile) -> int:
    """Where the line begins that ends the front matter."""
    ends = re.finditer(r"---[ \t]*(?:\r\n|\n|\r|\Z)", file.text[: file.body_start])
    return [match.start() for match in ends if match.end() == file.body_start][-1]
