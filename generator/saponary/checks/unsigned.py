"""unsigned: figures are stated, but not the formula they were stated for."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.catalogue import FINGERPRINT
from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    if computed.model.stated and FINGERPRINT not in computed.model.stated:
        yield computed.finding(
            RULE.name,
            ("stated",),
            "the formula's fingerprint is not stated",
            f"run: saponary restate --sign {computed.file.slug}",
            "warning",
            key=True,
        )


RULE = Rule(
    "unsigned",
    "stale",
    "Two oils of like saponification value can change places and leave lye and water as they are. The "
    "fingerprint, stated beside them, notices.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
