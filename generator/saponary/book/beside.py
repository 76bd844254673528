"""What stands so close to a figure in a text that a reader takes it for part of the figure."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from html import unescape

from saponary.book.quotes import find, uncommented

_NEAR = 40
"""Characters beside a brace that are looked at: an entity, and marks of Markdown."""
_MARKS = "*_~`[]\\"
"""Marks of Markdown that leave nothing between two words."""
_JOINS = ".,·٫٬'’\u00a0\u2007\u2009\u202f"
"""What may stand inside a number, between two digits."""
_SIGNS = "-−‐‑‒–+±"


def stuck(text: str, *, code: bool = False) -> Iterator[int]:
    """Where figures stand in a text that have a digit or a sign stuck to them: `1{lye}` is read as 1139.8."""
    for quote in find(text, code=code):
        before = _shown(text[max(0, quote.start - _NEAR) : quote.start])
        after = _shown(text[quote.end : quote.end + _NEAR])
        if _ends_a_number(before) or _goes_on(after):
            yield quote.start


def stuck_in_notes(text: str, *, offset: int = 0) -> Iterator[int]:
    """The same in notes; places are those of what was written."""
    shown = uncommented(text)
    for at in stuck(shown.text, code=True):
        yield shown.origin(at) + offset


def _shown(text: str) -> str:
    """A stretch of text without what cannot be seen in it."""
    return "".join(
        c for c in unescape(text) if c not in _MARKS and unicodedata.category(c) not in ("Cf", "Mn", "Me")
    )


def _ends_a_number(before: str) -> bool:
    if before[-1:].isnumeric() or (before[-1:] in _JOINS and before[-2:-1].isnumeric()):
        return True
    return before[-1:] != "" and before[-1] in _SIGNS and (len(before) == 1 or before[-2] in " (:=≈~")


def _goes_on(after: str) -> bool:
    return after[:1].isnumeric() or (after[:1] in _JOINS and after[1:2].isnumeric())
