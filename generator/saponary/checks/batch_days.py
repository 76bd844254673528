"""batch-days: a batch whose days run backwards."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding

_HINT = "check the two dates"


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        yield from _days(record)


def _days(record: BatchRecord) -> Iterator[Finding]:
    batch = record.batch
    for name in ("unmoulded", "cut"):
        day = getattr(batch, name)
        if day is not None and day < batch.poured:
            message = f"lot {batch.lot} was {name} before it was poured"
            yield record.finding(RULE.name, (name,), message, _HINT)
    listed = (*record.path, "free-alkali", 0) in record.tree.values
    for index, test in enumerate(batch.free_alkali):
        if test.on < batch.poured:
            path = ("free-alkali", index, "on") if listed else ("free-alkali", "on")
            message = f"lot {batch.lot} was tested before it was poured"
            yield record.finding(RULE.name, path, message, _HINT)


RULE = Rule(
    "batch-days",
    "sense",
    "A batch is poured before it is unmoulded, cut or tested. A cure is counted from the day of the pour, so that "
    "a wrong day makes a bar ready too soon.",
    recipe=check,
)
