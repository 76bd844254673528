"""potassium: a liquid soap or paste made without potassium hydroxide."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    if computed.model.serves != "bar" and computed.resolved.formula.alkali.potassium < 0.5:
        yield computed.finding(
            RULE.name, ("serves",), f"a {computed.model.serves.replace('-', ' ')} needs potassium hydroxide",
            "add lye: {potassium: {share: 100 %, purity: 90 %}}, or serves: bar",
        )  # fmt: skip


RULE = Rule(
    "potassium",
    "danger",
    "Sodium soaps set hard. A recipe that is said to be a liquid soap or a paste is mostly potassium soap.",
    recipe=check,
    waivable=IN_RECIPES,
)
