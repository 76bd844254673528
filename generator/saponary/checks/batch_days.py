"""batch-days: a batch whose days run backwards."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.reading.findings import Finding, Place
from saponary.reading.tree import Path

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
    if batch.unmoulded is not None and batch.cut is not None and batch.poured <= batch.cut < batch.unmoulded:
        yield record.finding(RULE.name, ("cut",), f"lot {batch.lot} was cut before it was unmoulded", _HINT)
    for index, test in enumerate(batch.free_alkali):
        if test.on < batch.poured:
            message = f"lot {batch.lot} was tested before it was poured"
            yield record.finding(RULE.name, _test(record, index), message, _HINT)


def latest(computed: Computed) -> Iterator[Mention]:
    """The latest day that its records tell of."""
    days = [day for record in computed.batches for _, _, day in _recorded(record)]
    if days:
        yield Mention(max(days).isoformat(), Place(computed.path))


def check_book(context: ProofContext) -> Iterator[Finding]:
    """No batch is recorded for a day that is yet to come; one day is left for clocks of other zones."""
    if context.today is None:
        return
    last = context.today + timedelta(days=1)
    known = context.mentions[RULE.name]
    for slug in sorted(context.book.batches):
        if slug in context.facts and all(one.text <= last.isoformat() for one in known.get(slug, ())):
            continue
        for record in context.book.batches[slug]:
            for path, what, day in _recorded(record):
                if day > last:
                    message = f"lot {record.batch.lot} is recorded as {what} on {day.isoformat()}, a day yet to come"
                    yield record.finding(RULE.name, path, message, "record what has been; check the date")


def _recorded(record: BatchRecord) -> Iterator[tuple[Path, str, date]]:
    """Every day of a record: where it stands, what was done, and when."""
    batch = record.batch
    yield ("poured",), "poured", batch.poured
    for name in ("unmoulded", "cut"):
        day = getattr(batch, name)
        if day is not None:
            yield (name,), name, day
    for index, test in enumerate(batch.free_alkali):
        yield _test(record, index), "tested", test.on
    for key, days in (("weighed", batch.weighed), *((name, days) for name, days in batch.bars.items())):
        path = ("weighed",) if days is batch.weighed else ("bars", key)
        for count in days:
            yield record.day_path(path, count), "weighed", batch.poured + timedelta(days=count)
    for index, photo in enumerate(batch.photos):
        yield ("photos", index, "day"), "photographed", batch.poured + timedelta(days=photo.day)


def _test(record: BatchRecord, index: int) -> Path:
    """Where a test's day stands, which may be written without a list."""
    listed = (*record.path, "free-alkali", 0) in record.tree.values
    return ("free-alkali", index, "on") if listed else ("free-alkali", "on")


RULE = Rule(
    "batch-days",
    "sense",
    "A batch is poured before it is unmoulded, cut or tested, and no day of its record lies in the "
    "future. The cure is counted from the day of the pour, so a wrong day makes a bar ready too soon.",
    recipe=check,
    mentions=latest,
    book=check_book,
)
