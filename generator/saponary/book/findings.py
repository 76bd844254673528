"""Findings: what is wrong, where, what was expected, and what would settle it.

Every stage of the pipeline reports through this one type, so that a person, an
editor and a code host all see the same thing on the same line.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, order=True)
class Place:
    """A position in a file of the book; line and column count from 1."""

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True)
class Finding:
    """One thing a person should look at. An error stops the build, a warning does not."""

    rule: str
    severity: Severity
    place: Place
    message: str
    hint: str = ""

    def sort_key(self) -> tuple[str, int, int, str, str]:
        return (self.place.file, self.place.line, self.place.column, self.rule, self.message)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like `word`, or None when nothing is close."""
    names = sorted(set(known))
    folded = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(word.casefold()[:80], folded, n=1, cutoff=0.55)
    if close:
        return folded[close[0]]
    inside = [n for n in names if len(word) > 2 and (word.casefold() in n or n in word.casefold())]
    return inside[0] if inside else None


def suggest(word: str, known: Iterable[str], what: str) -> str:
    """A hint naming the nearest known name, or listing a few when nothing is near."""
    names = sorted(set(known))
    close = nearest(word, names)
    if close is not None:
        return f"did you mean {close!r}?"
    if not names:
        return f"there are no {what} here yet"
    shown = ", ".join(names[:8]) + (", …" if len(names) > 8 else "")
    return f"known {what}: {shown}"


def has_errors(findings: Iterable[Finding]) -> bool:
    """True when anything here stops a build."""
    return any(f.severity == "error" for f in findings)
