"""unsigned: figures are signed, but not the formula they belong to."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.figure import FINGERPRINT
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    if computed.model.signed and FINGERPRINT not in computed.model.signed:
        yield computed.finding(
            RULE.name,
            ("signed",),
            "the formula's fingerprint is not signed",
            f"run: saponary sign {computed.file.slug}",
            "warning",
            key=True,
        )


RULE = Rule(
    "unsigned",
    "stale",
    "Two oils with similar saponification values can change places without changing lye and water. The "
    "signed fingerprint shows such a change.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
