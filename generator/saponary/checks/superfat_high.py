"""superfat-high: so much unsaponified oil that a typing mistake is likelier than intent."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

HIGH = 0.20
"""Bars of coconut oil alone are made with up to this: common practice, no source."""


def check(computed: Computed) -> Iterator[Finding]:
    superfat = computed.figures.superfat
    if superfat > HIGH:
        yield computed.finding(
            RULE.name,
            ("superfat",),
            f"a superfat of {show(100 * superfat, 1)} % is far more than usual",
            "usual is 3 to 8 %, and up to 20 % for coconut oil alone",
            "warning",
        )


RULE = Rule(
    "superfat-high",
    "sense",
    "A superfat of 3 to 8 % is usual, up to 20 % where a bar is all coconut oil. More leaves a soft bar"
    " that turns rancid, and is probably a typing mistake (common practice, no source).",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
