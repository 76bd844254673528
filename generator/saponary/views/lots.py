"""The page of lots: those held back, what is curing, and a table of all others; by year where they are many."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from saponary.book.curing import WEEKLY_LOSS
from saponary.book.published import Published
from saponary.messages.message import Day, Message, Value, message, percent
from saponary.messages.message import day as on_day
from saponary.views import links
from saponary.views.facts import days
from saponary.views.lot_rows import LATEST, MANY, LotLine, LotRow, State, YearLink, told_once
from saponary.views.site import SiteInput


class CuringLot(NamedTuple):
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


def lots_view(site: SiteInput, every: Sequence[LotLine], up: str) -> LotsView:
    """The page of all lots, which come the newest first."""
    rows = [one.row for one in every]
    others = [one for one in rows if one.state not in ("held", "curing")]
    years = year_links(site.recipes, up)
    told = _view(site, rows, others[:LATEST] if years else others)
    return replace(told, curing=tuple(_curing(every, site)), years=years)


def lots_of_year(site: SiteInput, every: Sequence[LotLine], year: int) -> LotsView:
    """The page of the lots poured in one year: all of them, those held back first."""
    rows = [one.row for one in every if one.poured.year == year]
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


def _curing(every: Iterable[LotLine], site: SiteInput) -> Iterator[CuringLot]:
    """The next to be over first."""
    for one in sorted((one for one in every if one.row.state == "curing"), key=lambda one: one.over):
        yield CuringLot(one.row, one.word, message("shelf.in", days=days((one.over - site.on).days)))


def years_of(recipes: Iterable[Published]) -> Counter[int]:
    """The years that have a page of their own, with their lots: none while one table holds all lots."""
    poured = Counter(day.year for recipe in recipes for _, day in recipe.glance.lots)
    return poured if poured.total() > MANY else Counter()


def year_links(recipes: Iterable[Published], up: str) -> tuple[YearLink, ...]:
    """The ways to those pages, the latest year first."""
    found = sorted(years_of(recipes).items(), reverse=True)
    return tuple(YearLink(str(year), count, up + links.lots_of_year(year)) for year, count in found)
