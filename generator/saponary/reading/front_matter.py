"""Front matter and text: where the one ends and the other begins in a Markdown file."""

from __future__ import annotations

import re
from typing import NamedTuple

from saponary.reading.findings import Finding, Place
from saponary.reading.textfile import TextFile
from saponary.reading.yaml_tree import read_yaml

_FENCE = re.compile(r"---[ \t]*(?:\r\n|\n|\r|\Z)")
_CLOSE = re.compile(r"(?:\A|(?<=\n)|(?<=\r))---[ \t]*(?:\r\n|\n|\r|\Z)")
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")


class Parts(NamedTuple):
    """Offsets in a file: its front matter from `start` to `end`, and its text from `body` on."""

    start: int
    end: int
    body: int


def split(text: str, file: str, what: str) -> Parts | Finding:
    """The parts of a file, or what keeps them from being told apart. `what` is what it holds."""
    opening = _FENCE.match(text, 1 if text.startswith("\ufeff") else 0)
    if opening is None:
        message, hint = f"this {what} has no front matter", "begin the file with a line of three dashes: ---"
        return Finding("reading", "error", Place(file), message, hint)
    closing = _CLOSE.search(text, opening.end())
    if closing is None:
        message, hint = "the front matter is never closed", "end it with a line of three dashes: ---"
        return Finding("reading", "error", Place(file), message, hint)
    return Parts(opening.end(), closing.start(), closing.end())


def read_into(read: TextFile, what: str, begin: str) -> bool:
    """Read the front matter of a file into its tree, and check what stands below it for control characters.

    False where there is nothing to go on with; the findings say why. `what` is what the file
    holds, `begin` how its front matter begins.
    """
    parts = split(read.text, read.file, what)
    if isinstance(parts, Finding):
        read.findings.append(parts)
        return False
    read.body_start = parts.body
    front = read.text[parts.start : parts.end]
    read.tree, findings = read_yaml(front, read.file, first_line=2, offset=parts.start)
    read.findings += findings
    if read.tree.data is None:
        if not findings:
            message = "the front matter is empty"
            read.findings.append(Finding("reading", "error", Place(read.file, 2), message, begin))
        return False
    at = control(read.text, read.body_start)
    if at is not None:
        read.findings.append(unprintable(read.text, at, read.place_at(at)))
    return True


def control(text: str, start: int) -> int | None:
    """Where the first control character at or after `start` stands."""
    found = _UNPRINTABLE.search(text, start)
    return None if found is None else found.start()


def unprintable(text: str, at: int, place: Place) -> Finding:
    """The finding about a control character."""
    return Finding("reading", "error", place, f"a control character, U+{ord(text[at]):04X}", "take it out")
