"""Findings: what is wrong, where, what was expected, and what would settle it.

Every stage of the pipeline reports through this one type, so that a person, an
editor and a code host all see the same thing on the same line.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, cast

Severity = Literal["error", "warning"]

Home = Literal["recipe", "class", "book", "pantry", "claims"]
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

    def sort_key(self) -> tuple[str, int, int, str, str]:
        return (self.place.file, self.place.line, self.place.column, self.rule, self.message)


def nearest(word: str, known: Iterable[str] | Mapping[str, object]) -> str | None:
    """The known name most like `word`, or None when nothing is close.

    A slip of a letter comes first, then a name (or, in a mapping to things that have one, the
    thing's name in words) that holds every word of `word`, then whatever looks alike. A thing of
    which it is not `known` how much alkali it binds is named for a slip of a letter alone.
    """
    names = sorted(set(known))
    folded = {name.casefold(): name for name in names}
    written = word.casefold()[:80]
    slip = difflib.get_close_matches(written, folded, n=1, cutoff=_SLIP)
    if slip:
        return folded[slip[0]]
    if isinstance(known, Mapping):
        things = cast("Mapping[str, object]", known)
        names = [name for name in names if getattr(things[name], "known", True)]
        folded = {name.casefold(): name for name in names}
    whole = [name for name in names if _words(written) <= _words(name)]
    if not whole and isinstance(known, Mapping):
        things = cast("Mapping[str, object]", known)
        whole = [name for name in names if _words(written) <= _words(str(getattr(things[name], "name", "")))]
    if whole and _words(written):
        return min(whole, key=len)
    close = difflib.get_close_matches(written, folded, n=1, cutoff=_ALIKE)
    if close:
        return folded[close[0]]
    inside = [n for n in names if len(word) > 2 and (word.casefold() in n or n in word.casefold())]
    return inside[0] if inside else None


LISTED = frozenset({"oils", "liquids", "additions", "moulds"})
"""What `saponary pantry` lists."""
_SLIP, _ALIKE = 0.8, 0.55


def _words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.casefold()))


def suggest(word: str, known: Iterable[str] | Mapping[str, object], what: str) -> str:
    """A hint naming the nearest known name, or listing a few when nothing is near."""
    names = sorted(set(known))
    things = cast("Mapping[str, object]", known) if isinstance(known, Mapping) else None
    close = nearest(word, names if things is None else things)
    if close is not None:
        return f"did you mean {close!r}?"
    if not names:
        return f"there are no {what} here yet"
    shown = ", ".join(names[:8]) + (", …" if len(names) > 8 else "")
    more = f"; all of them: saponary pantry {what}" if what in LISTED and len(names) > 8 else ""
    return f"known {what}: {shown}{more}"


def has_errors(findings: Iterable[Finding]) -> bool:
    """True when anything here stops a build."""
    return any(f.severity == "error" for f in findings)
