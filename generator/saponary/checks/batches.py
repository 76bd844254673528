"""batches: a batch poured to an earlier formula, and days that cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.rule import Rule
from saponary.lye.fingerprint import matches
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    lots: set[str] = set()
    for record in computed.batches:
        batch = record.batch
        if batch.lot in lots:
            yield record.finding(
                RULE.name, ("lot",), f"the lot {batch.lot!r} is recorded twice", "give each batch its own lot"
            )
        lots.add(batch.lot)
        if batch.formula is not None and not matches(batch.formula, computed.fingerprint):
            yield record.finding(
                RULE.name,
                ("formula",),
                f"lot {batch.lot} was poured to an earlier formula, {batch.formula}",
                f"the recipe's formula is now {computed.fingerprint}; pour and record a batch to it",
                "warning",
            )
        yield from _days(record)


def _days(record: BatchRecord) -> Iterator[Finding]:
    batch, hint = record.batch, "check the two dates"
    for name in ("unmoulded", "cut"):
        day = getattr(batch, name)
        if day is not None and day < batch.poured:
            yield record.finding(RULE.name, (name,), f"lot {batch.lot} was {name} before it was poured", hint)
    for index, test in enumerate(batch.free_alkali):
        if test.on < batch.poured:
            path = (
                ("free-alkali", index, "on")
                if ("free-alkali", index) in _paths(record)
                else ("free-alkali", "on")
            )
            yield record.finding(RULE.name, path, f"lot {batch.lot} was tested before it was poured", hint)


def _paths(record: BatchRecord) -> set[tuple[str | int, ...]]:
    """Paths inside this batch, to tell a list of tests from a single one."""
    start = len(record.path)
    return {path[start:] for path in record.tree.values if path[:start] == record.path}


RULE = Rule(
    "batches",
    "sense",
    "A batch record names the formula it was poured to, by fingerprint. When the recipe changes, what was "
    "learnt from the batch is no longer about this recipe, and the page says so.",
    check,
)
