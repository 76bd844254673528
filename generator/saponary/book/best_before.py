"""Until when a lot is good: no longer than the oils it was made of, and no longer than the book's own months.

That soap outlasts none of its oils' dates is common practice, no source: the superfat is those oils, and
they go rancid as they would in the bottle.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from saponary.book.computed import Computed
from saponary.lye.formula import Formula
from saponary.pantry.model import Pantry
from saponary.schema.batch import Batch
from saponary.schema.oil_entry import OilEntry
from saponary.schema.settings import Settings


class OilDate(NamedTuple):
    """An oil's lot, and the day until which its supplier vouches for it."""

    oil: str
    lot: str
    day: date


@dataclass(frozen=True)
class BestBefore:
    """`day` is the soonest of all; `by` the oil lot that sets it, None where the book's months do.

    `undated` are the oils that no lot with a date is recorded for: with any such, the day is no promise.
    """

    day: date
    by: OilDate | None
    undated: tuple[str, ...]
    by_months: bool = False

    @property
    def sure(self) -> bool:
        return not self.undated


def dates(batch: Batch, pantry: Pantry) -> tuple[OilDate, ...]:
    """The dates of the oil lots that a batch names, in its order."""
    found: list[OilDate] = []
    for oil, lot in batch.oil_lots.items():
        known = lots_of(oil, pantry)
        if lot in known:
            found.append(OilDate(oil, lot, known[lot]))
    return tuple(found)


def lots_of(oil: str, pantry: Pantry) -> dict[str, date]:
    """The lots of an oil in the pantry, with their days; an infused oil's are its carrier's."""
    stock = pantry.infusions.get(oil)
    entry = pantry.oils.get(stock.carrier if stock else oil)
    written = entry.entry if entry is not None else None
    lots = written.lots if isinstance(written, OilEntry) else None
    return {lot: one.best_before for lot, one in (lots or {}).items()}


def best_before(batch: Batch, formula: Formula, pantry: Pantry, settings: Settings) -> BestBefore | None:
    """None where neither an oil's date nor the book's months say anything."""
    found = dates(batch, pantry)
    soonest = min(found, key=lambda one: one.day, default=None)
    months = settings.durability_months
    last = months_later(batch.poured, months) if months is not None else None
    if soonest is None and last is None:
        return None
    dated = {carrier(one.oil, pantry) for one in found}
    undated = tuple(dict.fromkeys(oil.id for oil in formula.oils if oil.grams > 0 and oil.id not in dated))
    if soonest is None or (last is not None and last < soonest.day):
        assert last is not None
        return BestBefore(last, None, undated, by_months=True)
    return BestBefore(soonest.day, soonest, undated)


def best_before_of(computed: Computed, lot: str) -> BestBefore | None:
    """Until when a lot of a recipe is good."""
    for record in computed.batches:
        if record.batch.lot == lot:
            formula = computed.resolved.formula
            return best_before(record.batch, formula, computed.pantry, computed.settings)
    return None


def carrier(oil: str, pantry: Pantry) -> str:
    """The oil that an infused oil is of; any other as it is."""
    stock = pantry.infusions.get(oil)
    return stock.carrier if stock else oil


def months_later(day: date, months: int) -> date:
    """The same day so many months later; the last of that month where it has no such day."""
    year, month = divmod(day.month - 1 + months, 12)
    year += day.year
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
