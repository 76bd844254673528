"""Which lots of a recipe a customer may be shown, and when the next is due.

A lot is for sale where its cure is over, its last test found no free alkali, it was poured to the
formula as it stands, and no fault is recorded of it.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from saponary.book.computed import Computed
from saponary.book.cure_days import CureDays, cure_days
from saponary.book.curing import ready_on
from saponary.book.standing import standings
from saponary.lye.fingerprint import matches
from saponary.schema.batch import Batch


class LotOnSale(NamedTuple):
    """A lot by its name, when it was poured, since when it is ready, and when its last test found nothing."""

    lot: str
    poured: date
    ready: date
    tested: date


class OnSale(NamedTuple):
    """The lots for sale, the newest first; and the day on which the next is due, if a test finds nothing."""

    lots: tuple[LotOnSale, ...] = ()
    due: date | None = None

    @property
    def names(self) -> frozenset[str]:
        return frozenset(one.lot for one in self.lots)


def on_sale(computed: Computed, on: date) -> OnSale:
    """What a recipe has for sale on a day."""
    cure, stands = cure_days(computed.model, computed.settings), standings(computed)
    there: list[tuple[date, LotOnSale]] = []
    due: list[date] = []
    for batch in (record.batch for record in computed.batches):
        found = stands[batch.lot]
        if found.held or batch.faults or batch.poured > on or not _of_this_formula(batch, computed):
            continue
        ready = ready_day(batch, cure)
        if ready > on:
            due.append(ready)
        elif found.ready and found.tested is not None:
            there.append((batch.poured, LotOnSale(batch.lot, batch.poured, ready, found.tested)))
    there.sort(key=lambda pair: (pair[0], pair[1].lot), reverse=True)
    return OnSale(tuple(one for _, one in there), min(due, default=None))


def ready_day(batch: Batch, cure: CureDays) -> date:
    """The date on which a lot has cured; the last day of the calendar where it would lie beyond."""
    days, _ = ready_on(batch, cure)
    return batch.poured + timedelta(days=min(days, (date.max - batch.poured).days))


def _of_this_formula(batch: Batch, computed: Computed) -> bool:
    return batch.formula is not None and matches(batch.formula, computed.fingerprint)
