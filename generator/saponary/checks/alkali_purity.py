"""alkali-purity: potassium hydroxide weighed as if it were pure."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    if computed.resolved.formula.alkali.potassium <= 0:
        return
    own = computed.model.lye.potassium if computed.model.lye is not None else None
    if (own is None or own.purity is None) and computed.settings.purity.potassium is None:
        yield computed.finding(
            RULE.name,
            ("lye", "potassium"),
            "potassium hydroxide is weighed here as if it were pure, and no purity is given",
            "add purity: 90 % as the bag has it, here or in book.yaml; flakes of the trade hold 85 to 92 %",
            "warning",
            key=True,
        )


RULE = Rule(
    "alkali-purity",
    "danger",
    "Potassium hydroxide is sold 85 to 92 % pure (from memory); the rest is water. Weighed as if it "
    "were pure, it is about a tenth too little, and the soap stays oily.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
