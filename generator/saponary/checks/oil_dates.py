"""oil-dates: oil lots that the pantry does not know, that no oil of the batch has, or that were out of date."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.best_before import carrier, lots_of
from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, suggest


def check(computed: Computed) -> Iterator[Finding]:
    oils = {oil.id for oil in computed.resolved.formula.oils}
    for record in computed.batches:
        for name, lot in record.batch.oil_lots.items():
            yield from _of(record, name, lot, oils, computed)


def _of(record: BatchRecord, name: str, lot: str, oils: set[str], computed: Computed) -> Iterator[Finding]:
    known, path = lots_of(name, computed.pantry), ("oil-lots", name)
    if carrier(name, computed.pantry) not in oils and name not in record.batch.as_weighed:
        yield record.finding(
            RULE.name,
            path,
            f"{name!r} is not an oil of this recipe",
            suggest(name, oils, "oils"),
            key=True,
            about=record.batch.lot,
        )
    elif lot not in known:
        hint = (
            suggest(lot, known, "lots")
            if known
            else f"add lots: {{{lot}: 2027-05-01}} to {name} in pantry.yaml"
        )
        yield record.finding(
            RULE.name, path, f"the lot {lot!r} of {name} is not in the pantry", hint, about=record.batch.lot
        )
    elif known[lot] < record.batch.poured:
        yield record.finding(
            RULE.name,
            path,
            f"lot {lot} of {name} was best before {known[lot].isoformat()}, and was poured on {record.batch.poured.isoformat()}",
            "check the oil for a rancid smell, and the record for a slip",
            "warning",
            about=record.batch.lot,
        )


RULE = Rule(
    "oil-dates",
    "sense",
    "A soap keeps no longer than its oils. The oil lots that a batch names must be in the pantry with "
    "their dates, and none may be out of date at the pour.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="lot",
)
