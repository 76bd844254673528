"""draft: nobody has signed these figures."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    if not computed.model.signed:
        yield computed.finding(
            RULE.name, (), "nothing is signed: this is a draft, and only the maker's edition shows it",
            "to see it, run: saponary build --edition maker; when the figures are right, run:"
            f" saponary sign {computed.file.slug}", "warning",
        )  # fmt: skip


RULE = Rule(
    "draft",
    "stale",
    "The signed figures are your signature. A recipe without them is a draft and is not published.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
