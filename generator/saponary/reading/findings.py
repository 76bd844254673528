"""Findings: what is wrong, where, what was expected, and what would settle it.

Every stage of the pipeline reports through this one type, so that a person, an
editor and a code host all see the same thing on the same line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from saponary.reading.alike import likely, told_of
from saponary.reading.renamed import renamed

Severity = Literal["error", "warning"]

Home = Literal["recipe", "class", "page", "book", "pantry"]
"""The kinds of file that may waive a rule."""


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
    about: str = ""
    """The one thing it is about, as a waiver names it; empty where that is the file."""

    @cached_property
    def by_place(self) -> tuple[str | int, ...]:
        """What they are sorted by: the place, then the rest. Two that have the same are the same."""
        at = self.place
        return at.file, at.line, at.column, self.rule, self.message, self.severity, self.hint, self.about


LISTED = frozenset({"oils", "liquids", "additions", "moulds"})
"""What `saponary pantry` lists."""

_TOLD = 3
"""Names told of at most, where they differ in what they do with alkali."""


def suggest(word: str, known: Iterable[str] | Mapping[str, object], what: str) -> str:
    """A hint naming the nearest known name, or listing a few when nothing is near.

    One that binds alkali or brings it, or that may, is named with that.
    """
    names = sorted(set(known))
    if new := renamed(word, names):
        return f"it is called {new!r} now"
    close = likely(word, known)
    if close:
        told = close[:1] if len({told_of(name, known) for name in close}) == 1 else close[:_TOLD]
        named = " or ".join(repr(name) for name in told)
        notes = ", ".join(f"{name!r} {note}" for name in told if (note := told_of(name, known)))
        return f"did you mean {named}?" + (f" ({notes})" if notes else "")
    if not names:
        return f"there are no {what} here yet"
    shown = ", ".join(names[:8]) + (", …" if len(names) > 8 else "")
    command = f"saponary pantry {what}" if what in LISTED else "saponary manual" if what == "keys" else ""
    more = f"; all of them: {command}" if command and len(names) > 8 else ""
    return f"known {what}: {shown}{more}"


def has_errors(findings: Iterable[Finding]) -> bool:
    """True when anything here stops a build."""
    return any(f.severity == "error" for f in findings)


def errors(findings: Iterable[Finding]) -> list[Finding]:
    """Those that stop a build."""
    return [f for f in findings if f.severity == "error"]
