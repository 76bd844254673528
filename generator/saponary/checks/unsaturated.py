"""unsaturated: so much linoleic and linolenic acid that rancid spots come early."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.bar import POLYUNSATURATED_GUARD
from saponary.quantity.rounding import as_decimal, show
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    share = computed.figures.chemistry.groups["polyunsaturated"]
    if share > POLYUNSATURATED_GUARD:
        yield computed.finding(
            RULE.name, ("oils", "parts"), f"{show(100 * share, 1)} % of the fatty acids are polyunsaturated",
            f"at most {as_decimal(100 * POLYUNSATURATED_GUARD, 6)} % keeps rancid spots away longer", "warning", key=True,
        )  # fmt: skip


RULE = Rule(
    "unsaturated",
    "sense",
    "Linoleic and linolenic acid oxidise first. Common practice (no source) is at most 15 % of the fatty acids.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
