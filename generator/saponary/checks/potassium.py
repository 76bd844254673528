"""potassium: a liquid or cream soap made without potassium hydroxide."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    method = computed.model.by
    if method.potassium and computed.resolved.formula.alkali.potassium < _MOST:
        yield computed.finding(
            RULE.name,
            ("method",),
            f"method: {method.name} needs potassium hydroxide, half of the equivalents or more",
            "add lye: {potassium: {share: 100 %, purity: 90 %}}, or make a bar",
        )


_MOST = 0.5
"""Of the equivalents: common practice, no source."""

RULE = Rule(
    "potassium",
    "danger",
    "Sodium soaps set hard. A liquid soap or a cream soap is mostly potassium soap.",
    recipe=check,
    waivable=IN_RECIPES,
)
