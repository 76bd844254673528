"""portion-superfat: one portion holds free lye though the batch as a whole does not."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import BOTH
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

APART = 0.02
"""Superfat by which a portion may differ from the batch before it is remarked on: common practice, no source."""


def check(computed: Computed) -> Iterator[Finding]:
    whole = computed.figures.superfat
    if whole < 0:
        return
    apart = [
        (index, portion)
        for index, portion in enumerate(computed.figures.portions)
        if portion.superfat < 0 or abs(portion.superfat - whole) > APART
    ]
    if not apart:
        return
    worst, lowest = min(apart, key=lambda one: one[1].superfat)
    said = ", ".join(f"{portion.name!r} {show(100 * portion.superfat, 1)} %" for _, portion in apart)
    message = f"the portions differ in superfat: {said}; the batch has {show(100 * whole, 1)} %"
    if lowest.superfat < 0:
        message += f"; {lowest.name!r} contains free lye"
    hint = "the lye is for all portions: put what binds or brings alkali into all of them, or write pots: separate"
    yield computed.finding(
        RULE.name, ("portions", worst), message, hint, "error" if lowest.superfat < 0 else "warning"
    )


RULE = Rule(
    "portion-superfat",
    "danger",
    "Batter that is divided at trace carries its lye with it. Where an acid goes into one portion only,"
    " the lye weighed for it is in all of them, and the others may hold free lye that the sum of the "
    "batch does not show.",
    recipe=check,
    kinds=BOTH,
)
