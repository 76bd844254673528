"""Lots in order, and the day each is ready, with how that is known."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from math import ceil, floor
from typing import NamedTuple, Protocol, TypeVar

from saponary.book.cure_days import CureDays, cure_days
from saponary.book.curing import WEEKLY_LOSS, cures, ready_on
from saponary.book.published import Published
from saponary.book.standing import Name, Standing
from saponary.lye.cure.fit import NoFit, Reason
from saponary.lye.cure.readings import Ready
from saponary.messages.message import Message, clauses, message, percent
from saponary.messages.message import day as on_day
from saponary.schema.batch import Batch
from saponary.views import links
from saponary.views.facts import days
from saponary.views.prose import Prose


class Lot(NamedTuple):
    """A batch with its recipe, the recipe's title, and a name that no other lot of the recipe has."""

    recipe: Published
    batch: Batch
    title: str
    name: str

    @property
    def path(self) -> str:
        """The address of its page."""
        return links.lot(self.recipe.slug, self.name)

    @property
    def anchor(self) -> str:
        """A fragment for it on a page of many lots; `_` stands in no name."""
        return f"lot_{self.recipe.slug}_{self.name}"

    @property
    def standing(self) -> Standing:
        return self.recipe.standing[self.batch.lot]

    @property
    def readiness(self) -> Readiness:
        """When it is ready, by the days that its recipe's method asks for."""
        return readiness(self.batch, self.standing, cure_days(self.recipe.model, self.recipe.settings))


class Readiness(NamedTuple):
    """The day of the cure on which a lot is ready, the date, whether weighings tell it, and how.

    `held` says why the lot is held back; there is no day on which such a lot is ready. `name` says
    what else keeps it from being called ready.
    """

    day: int
    on: date
    weighed: bool
    how: Message
    name: Name
    held: Message | None

    @property
    def word(self) -> Message:
        """What may be said of the lot on that day, within a sentence."""
        return message("lot.ready") if self.name == "clean" else message("lot.over")

    @property
    def head(self) -> Message:
        """The same, to begin with."""
        return message("lot.ready-head") if self.name == "clean" else message("lot.over-head")


def lots_of(recipe: Published) -> tuple[Lot, ...]:
    """The batches of one recipe, in the order of their records."""
    title = Prose(recipe.catalogue).title(recipe.model.title)
    made = [record.batch for record in recipe.batches]
    names = links.free_names([batch.lot for batch in made])
    return tuple(Lot(recipe, batch, title, name) for batch, name in zip(made, names, strict=True))


class OfLot(Protocol):
    """Something about one lot."""

    @property
    def slug(self) -> str:
        """Its recipe."""
        ...

    @property
    def lot(self) -> str:
        """Its own name."""
        ...

    @property
    def poured(self) -> date:
        """When it was poured."""
        ...


L = TypeVar("L", bound=OfLot)


def newest_first(found: Iterable[L]) -> list[L]:
    """What is said of lots, in the order of their days, the newest first; of one day, by recipe and name."""
    named = sorted(found, key=lambda one: (one.slug, one.lot))
    return sorted(named, key=lambda one: one.poured, reverse=True)


def later(day: date, days: int) -> date:
    """A day so many days later; the last day of the calendar where there is none."""
    return day + timedelta(days=min(days, (date.max - day).days))


def readiness(batch: Batch, found: Standing, cure: CureDays) -> Readiness:
    day, weighed = ready_on(batch, cure)
    how = _by_weighings(batch, cure) if weighed else _by_days(batch, cure)
    return Readiness(day, later(batch.poured, day), weighed, how, found.name, why_held(found))


def why_held(found: Standing) -> Message | None:
    """Why a lot is held back; None where it is not."""
    if found.name == "caustic":
        return message("lot.held.caustic")
    if not found.held or found.tested is None:
        return None
    return message(f"lot.held.{found.name}", day=on_day(found.tested, "short"))


def held_lots(recipe: Published) -> tuple[Message, ...]:
    """What is said at the head of a recipe, of each of its lots that is held back."""
    said = ((lot, why_held(found)) for lot, found in recipe.standing.items())
    return tuple(message("lot.back", lot=lot, why=why) for lot, why in said if why is not None)


def _by_days(batch: Batch, cure: CureDays) -> Message:
    """Why there is nothing but a number of days to go by."""
    if not cure.weighed:
        return message("lot.by-days.rest", days=days(cure.usual))
    bars = cures(batch)
    if not bars:
        return message(f"lot.by-days.unweighed.{cure.waits}", days=days(cure.usual))
    reasons = dict.fromkeys(bar.fit.reason for bar in bars if isinstance(bar.fit, NoFit))
    return message(
        f"lot.by-days.no-day.{cure.waits}", days=days(cure.usual), why=clauses(*map(why_none, reasons))
    )


def why_none(reason: Reason) -> Message:
    """Why no curve could be laid through the weighings."""
    return message(f"cure.no-fit.{reason.name.lower().replace('_', '-')}")


def _by_weighings(batch: Batch, cure: CureDays) -> Message:
    bars = [bar for bar in cures(batch) if bar.ready is not None]
    slowest = max(bars, key=lambda bar: (bar.ready.day if bar.ready else 0.0, bar.name))
    assert slowest.ready is not None
    whose = message("cure.slowest", count=len(bars)) if len(bars) > 1 else message("cure.its-bar")
    when = loses(slowest.ready, whose)
    if ceil(slowest.ready.day) > cure.least:
        return message("lot.by-weighings", when=when)
    return message(f"lot.by-days.and-weighings.{cure.waits}", days=days(cure.least), when=when)


def loses(found: Ready, whose: Message) -> Message:
    """From which day a bar loses so little that it counts as ready."""
    share, day = percent(WEEKLY_LOSS, tight=True), ceil(found.day)
    if found.by_first:
        return message("cure.loses.already", whose=whose, share=share, day=day)
    if found.interval:
        first, last = floor(found.interval[0]), ceil(found.interval[1])
        when = message("cure.loses.between", whose=whose, share=share, day=day, first=first, last=last)
    else:
        when = message("cure.loses.from", whose=whose, share=share, day=day)
    return message("cure.loses.forecast", when=when) if found.forecast else when


KEYS_BY_ID = {
    "cure.no-fit.": tuple(reason.name.lower().replace("_", "-") for reason in Reason),
    "lot.held.": ("trace", "present"),
    **{f"lot.by-days.{how}.": ("cure", "drying") for how in ("unweighed", "no-day", "and-weighings")},
}
"""Keys that are put together here: what they start with, and the ids that may follow."""
