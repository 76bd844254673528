"""worst-case-superfat: the superfat would fall below zero if every oil lay at the low end of its range."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    f = computed.figures
    if f.superfat < 0 or f.bands.worst.low >= 0:
        return
    likely = f.bands.likely
    path = ("superfat",) if computed.model.superfat is not None else ()
    yield computed.finding(
        RULE.name,
        path,
        f"if every oil lay at the low end of its range the superfat would be {show(100 * f.bands.worst.low, 1)} %"
        f" (likely {show(100 * likely.low, 1)} to {show(100 * likely.high, 1)} %)",
        "raise the superfat, or put a supplier's certificate with its range into pantry.yaml",
        "warning",
    )


RULE = Rule(
    "worst-case-superfat",
    "danger",
    "Saponification values vary by nature. Where the worst case of all the published ranges at once "
    "leaves no superfat, test the bar for free alkali and consider a higher superfat.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
