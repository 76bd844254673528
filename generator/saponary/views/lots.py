"""The page of lots: those held back, what is curing, and a table of all others; by year where they are many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from saponary.book.curing import WEEKLY_LOSS
from saponary.book.published import Published
from saponary.messages.message import Day, Message, Value, message, percent
from saponary.messages.message import day as on_day
from saponary.views import links
from saponary.views.facts import days
from saponary.views.lot_rows import LATEST, MANY, LotRow, State, YearLink, row, told_once
from saponary.views.readiness import Lot, lots
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class CuringLot:
    """A lot that is curing: when its cure is over, and in how many days."""

    row: LotRow
    word: Message
    left: Message


@dataclass(frozen=True)
class LotsView:
    """`rows` are the lots that are neither held back nor curing, the newest first: the latest, where `years` lead
    to the others. `year` is that of a page for one year, '' on the page of all.
    """

    on: Day
    count: int
    year: str
    held: tuple[LotRow, ...]
    curing: tuple[CuringLot, ...]
    rows: tuple[LotRow, ...]
    years: tuple[YearLink, ...]
    states: tuple[State, ...]
    loss: Value
    cure_days: int


def lots_view(site: SiteInput, recipes: Sequence[Published], up: str) -> LotsView:
    """The page of all lots."""
    every = lots(recipes)
    rows = _rows(every, site, up)
    others = [one for one in rows if one.state not in ("held", "curing")]
    years = year_links(every, up)
    curing = [(lot, one) for lot, one in zip(every, rows, strict=True) if one.state == "curing"]
    told = _view(site, rows, others[:LATEST] if years else others)
    return replace(told, curing=tuple(_curing(curing, site)), years=years)


def lots_of_year(site: SiteInput, recipes: Sequence[Published], year: int, up: str) -> LotsView:
    """The page of the lots poured in one year: all of them, those held back first."""
    rows = _rows([lot for lot in lots(recipes) if lot.batch.poured.year == year], site, up)
    return replace(_view(site, rows, [one for one in rows if one.state != "held"]), year=str(year))


def _view(site: SiteInput, rows: Sequence[LotRow], others: Sequence[LotRow]) -> LotsView:
    return LotsView(
        on=on_day(site.on),
        count=len(rows),
        year="",
        held=tuple(one for one in rows if one.state == "held"),
        curing=(),
        rows=tuple(others),
        years=(),
        states=told_once({one.state for one in others}),
        loss=percent(WEEKLY_LOSS, tight=True),
        cure_days=site.book.settings.cure,
    )


def _rows(found: Iterable[Lot], site: SiteInput, up: str) -> list[LotRow]:
    return [row(lot, lot.readiness, site, up) for lot in found]


def _curing(found: Iterable[tuple[Lot, LotRow]], site: SiteInput) -> Iterator[CuringLot]:
    """The next to be over first."""
    for lot, one in sorted(found, key=lambda pair: pair[0].readiness.on):
        left = message("shelf.in", days=days((lot.readiness.on - site.on).days))
        yield CuringLot(one, lot.readiness.word, left)


def years_of(recipes: Iterable[Published]) -> tuple[int, ...]:
    """The years that have a page of their own, the latest first: none while one table holds all lots."""
    poured = [day.year for recipe in recipes for _, day in recipe.glance.lots]
    return tuple(sorted(set(poured), reverse=True)) if len(poured) > MANY else ()


def year_links(every: Sequence[Lot], up: str) -> tuple[YearLink, ...]:
    """The ways to those pages."""
    poured = [lot.batch.poured.year for lot in every]
    years = years_of({lot.recipe.slug: lot.recipe for lot in every}.values())
    return tuple(YearLink(str(year), poured.count(year), up + links.lots_of_year(year)) for year in years)
