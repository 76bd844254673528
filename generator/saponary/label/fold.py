"""A label that is too small for all its text, folded to a second one that is stuck beside it on the same bar.

The second label bears the name and the list of ingredients; where the first is still too full, the warnings go to
the second too, and then what else stands beside the list. Together they say what one label would. That a list may
stand on a label of its own: Regulation (EC) 1223/2009, Article 19(2), and 21 CFR 701.3(b) allow even a tag or a
card (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import ceil
from typing import NamedTuple

from saponary.label.fit import NOTHING, Beside, Fitted, LabelText, Misfit, fit


class Folded(NamedTuple):
    """One label, or two for each bar."""

    first: Fitted
    second: Fitted | None = None

    @property
    def labels(self) -> int:
        """How many a bar takes."""
        return 1 if self.second is None else 2


def fold(
    words: LabelText, width: float, height: float, law: str, beside: Beside = NOTHING
) -> Folded | Misfit:
    """All on one label where it fits there; else on two of this size. What stands beside the text stands on the
    first. Misfit where two do not hold it: it says what is wrong with one.
    """
    whole = fit(words, width, height, law, beside)
    if isinstance(whole, Fitted):
        return Folded(whole)
    for front, back in _ways(words):
        first, second = fit(front, width, height, law, beside), fit(back, width, height, law)
        if isinstance(first, Fitted) and isinstance(second, Fitted):
            return Folded(first, second)
    return whole


def _ways(words: LabelText) -> Iterator[tuple[LabelText, LabelText]]:
    """What the two labels say, in the order in which they are tried."""
    listed = LabelText("", words.name, words.ingredients, "", "", "", "")
    front = replace(words, ingredients="")
    yield front, listed
    front, listed = replace(front, caution=""), replace(listed, caution=words.caution)
    yield front, listed
    yield replace(front, facts=""), replace(listed, facts=words.facts)


_LONGEST = 150
"""Millimetres: more than a bar has room for."""


def enough(words: LabelText, width: float, height: float, law: str) -> tuple[int, int] | None:
    """The least width and height in whole mm of a label that would do, two for each bar: as wide as this one
    where that is possible, else as high, else of a shape of its own. None where no label is large enough.
    """

    def holds(across: float, down: float) -> bool:
        return isinstance(fold(words, across, down, law), Folded)

    tall = ceil(width), _least(height, lambda down: holds(ceil(width), down))
    broad = _least(width, lambda across: holds(across, ceil(height))), ceil(height)
    wider = _least(width, lambda across: holds(across, 2 * across / 3))
    return next((size for size in (tall, broad, (wider, ceil(2 * wider / 3))) if holds(*size)), None)


def _least(low: float, does: Callable[[float], bool]) -> int:
    """The least whole number above `low` that does; the longest where none does."""
    least, most = ceil(low), _LONGEST
    while least < most:
        middle = (least + most) // 2
        if does(middle):
            most = middle
        else:
            least = middle + 1
    return least
