"""batches: a batch poured to an earlier formula."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.fingerprint import matches
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        batch = record.batch
        if batch.formula is not None and not matches(batch.formula, computed.fingerprint):
            yield record.finding(
                RULE.name,
                ("formula",),
                f"lot {batch.lot} was poured to an earlier formula, {batch.formula}",
                f"the recipe's formula is now {computed.fingerprint}; pour and record a batch to it",
                "warning",
                about=batch.lot,
            )


RULE = Rule(
    "batches",
    "sense",
    "A batch record names its formula by fingerprint. When the recipe changes, what the batch showed "
    "may no longer be true of it, and the page says so.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="lot",
)
