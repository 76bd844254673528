"""free-alkali: a lot whose last test found alkali left over, or a titration that nothing is held against."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.alkali_found import Titrated, found, titrated
from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        last = record.batch.last_test()
        if last is None:
            continue
        result, measured = found(last, computed.settings), titrated(last, computed.settings)
        if measured is not None and measured.over:
            yield _over(record, measured, last.on.isoformat())
        elif result != "none":
            what = "free alkali" if result == "present" else "a trace of free alkali"
            yield _held(record, f"lot {record.batch.lot} held {what} on {last.on.isoformat()}")


def _over(record: BatchRecord, measured: Titrated, day: str) -> Finding:
    share = show(100 * measured.titration.free_caustic, 3)
    held = f"lot {record.batch.lot} held {share} % of free {measured.titration.metal} hydroxide on {day}"
    if measured.limit is None:
        hint = "hold the lot back; where a little is allowed, state the most in book.yaml: free-alkali-limit: 0.05 %"
        return _held(record, f"{held}, and the book sets no limit", hint)
    return _held(record, f"{held}, more than the {show(100 * measured.limit, 3)} % that the book allows")


def _held(
    record: BatchRecord,
    told: str,
    hint: str = "hold the lot back, test it again after more cure, and record that test",
) -> Finding:
    lot = record.batch.lot
    return record.finding(RULE.name, ("free-alkali",), told, hint, "warning", about=lot)


RULE = Rule(
    "free-alkali",
    "danger",
    "A bar that holds free alkali burns skin. A lot is held back when its last test found any, or more "
    "by titration than the book's limit (ISO 456 and ISO 684 say how it is measured), until a later "
    "test finds none.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="lot",
)
