"""Lots in order, and the day each is ready, with how that is known."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor

from saponary.book.curing import WEEKLY_LOSS, BarCure, cures, ready_on
from saponary.lye.cure.fit import NoFit
from saponary.lye.cure.readings import Ready
from saponary.quantity.numbers import percent, tight
from saponary.schema.batch import Batch
from saponary.views import links
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput


@dataclass(frozen=True)
class Lot:
    """A batch with its recipe, the recipe's title, and a fragment that names it on the page of lots."""

    recipe: RecipeInput
    batch: Batch
    title: str
    anchor: str


@dataclass(frozen=True)
class Readiness:
    """The day of the cure on which a lot is ready, the date, whether weighings tell it, and how in words.

    `held` says why the lot is held back all the same; empty where nothing speaks against it.
    """

    day: int
    on: date
    weighed: bool
    how: str
    held: str

    @property
    def word(self) -> str:
        """What may be said of the lot on that day."""
        return "cure over" if self.held else "ready"


def lots(recipes: Iterable[RecipeInput]) -> tuple[Lot, ...]:
    """Every batch of these recipes, the newest first."""
    found: list[Lot] = []
    taken: set[str] = set()
    for recipe in sorted(recipes, key=lambda r: r.slug):
        title = Prose(recipe.computed.catalogue).title(recipe.computed.model.title)
        for record in recipe.computed.batches:
            anchor = _free(f"lot-{recipe.slug}-{links.anchor(record.batch.lot)}", taken)
            found.append(Lot(recipe, record.batch, title, anchor))
    found.sort(key=lambda lot: (lot.recipe.slug, lot.batch.lot))
    return tuple(sorted(found, key=lambda lot: lot.batch.poured, reverse=True))


def _free(anchor: str, taken: set[str]) -> str:
    """Two lots whose names differ by signs alone still get a fragment each."""
    name, number = anchor, 1
    while name in taken:
        number += 1
        name = f"{anchor}--{number}"
    taken.add(name)
    return name


def later(day: date, days: int) -> date:
    """A day so many days later; the last day of the calendar where there is none."""
    return day + timedelta(days=min(days, (date.max - day).days))


def readiness(batch: Batch, cure_days: int) -> Readiness:
    day, weighed = ready_on(batch, cure_days)
    how = _by_weighings(batch, cure_days) if weighed else _by_days(batch, cure_days)
    return Readiness(day, later(batch.poured, day), weighed, how, _held(batch))


def _held(batch: Batch) -> str:
    """A bar that still held free alkali when last tested is not ready, however long it dried."""
    last = batch.last_test()
    if last is None or last.result == "none":
        return ""
    found = "a trace of free alkali" if last.result == "trace" else "free alkali"
    return f"held back: its last test, {last.on.isoformat()}, found {found}; no bar of it is used before a test finds none"


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def _by_days(batch: Batch, cure_days: int) -> str:
    """Why the book's own days of cure are all there is."""
    bars = cures(batch)
    if not bars:
        return f"by the book's {_days(cure_days)} of cure; no bar of it was weighed"
    reasons = dict.fromkeys(bar.fit.reason.value for bar in bars if isinstance(bar.fit, NoFit))
    return f"by the book's {_days(cure_days)} of cure; its weighings give no day: {'; '.join(reasons)}"


def _by_weighings(batch: Batch, cure_days: int) -> str:
    bars = [bar for bar in cures(batch) if bar.ready is not None]
    slowest = max(bars, key=lambda bar: (bar.ready.day if bar.ready else 0.0, bar.name))
    assert slowest.ready is not None
    whose = f"the slowest of {len(bars)} marked bars" if len(bars) > 1 else "its marked bar"
    told = loses(slowest.ready, whose)
    late = ceil(slowest.ready.day) > cure_days
    return f"by its weighings: {told}" if late else f"by the book's {_days(cure_days)} of cure; {told}"


def loses(found: Ready, whose: str) -> str:
    """From which day a bar loses so little that it counts as ready."""
    told = f"{whose} loses less than {tight(percent(WEEKLY_LOSS))} of its weight a week"
    if found.by_first:
        return f"{told} on day {ceil(found.day)} already, when it was first weighed"
    reach = f" ({floor(found.interval[0])} to {ceil(found.interval[1])})" if found.interval else ""
    beyond = ", a forecast beyond the last weighing" if found.forecast else ""
    return f"{told} from day {ceil(found.day)}{reach}{beyond}"


def sentence(words: str) -> str:
    """With a capital and a full stop, where there are any words."""
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def of_bar(label: str, bar: BarCure) -> str:
    """A label with the marked bar's name, where it has one."""
    return f"{label}, bar {bar.name}" if bar.name else label
