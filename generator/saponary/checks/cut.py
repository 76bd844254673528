"""cut: a cut that leaves no bar of its mould, or bars too thin to be meant."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

THINNEST = 5.0
"""mm of a bar that is meant as one: thinner is a slip of the unit (judgement, no source)."""


def check(computed: Computed) -> Iterator[Finding]:
    cut, mould = computed.model.cut, computed.resolved.mould
    if cut is None or mould is None or mould.kind == "cavities":
        return
    along = cut.along.millimetres
    if not computed.resolved.bars:
        yield computed.finding(
            RULE.name,
            ("cut",),
            f"no bar comes of a mould {show(mould.length, 0)} mm long that is cut every {show(along, 0)} mm",
            "the length of one bar along the mould, such as 25 mm",
            about="cut",
        )
    elif along < THINNEST:
        yield computed.finding(
            RULE.name,
            ("cut",),
            f"a bar of {show(along, 1)} mm is thinner than any that is meant",
            "the length of one bar along the mould, such as 25 mm",
            "warning",
            about="cut",
        )


RULE = Rule(
    "cut",
    "sense",
    "The cut decides how many bars there are and what they weigh. A cut as long as the mould gives no "
    "bars; one of a few millimetres is probably in the wrong unit.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="cut",
)
