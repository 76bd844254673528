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
    for index, portion in enumerate(computed.figures.portions):
        here = portion.superfat
        told = f"the portion {portion.name!r} has a superfat of {show(100 * here, 1)} %, the batch {show(100 * whole, 1)} %"
        if here < 0:
            hint = "the lye is for all portions alike: put acid or free alkali into all of them, or use pots: separate"
            yield computed.finding(RULE.name, ("portions", index), f"{told}: it holds free lye", hint)
        elif abs(here - whole) > APART:
            hint = "what takes or brings alkali goes into one portion alone; put it into all of them"
            yield computed.finding(RULE.name, ("portions", index), told, hint, "warning")


RULE = Rule(
    "portion-superfat",
    "danger",
    "Batter split at trace carries its lye with it. Where an acid goes into one portion alone, the lye weighed for "
    "it is in all of them, and the others may hold free lye that the batch's sum does not show.",
    recipe=check,
    kinds=BOTH,
)
