"""The cure shelf: what is curing on the day the site speaks of, and what is ready when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import inf
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.curing import WEEKLY_LOSS, BarCure, cures
from saponary.book.published import Published
from saponary.draw.charts.cure_span import Axis, Span, axis_for, days_axis, span
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import still_to_lose, weight_at, weight_interval
from saponary.messages.message import Day, Message, Value, clauses, grams, message, percent
from saponary.messages.message import day as on_day
from saponary.messages.speaker import speaker
from saponary.views import links
from saponary.views.cure_compare import CureCompare, Dried, compare, dried_bars
from saponary.views.facts import Fact, days, of_bar
from saponary.views.lot_rows import LATEST, STATES, LotLine, LotRow, State, YearLink, line, told_once
from saponary.views.lots import year_links
from saponary.views.readiness import Lot, Readiness, lots_of, why_none
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class ShelfLot:
    lot: str
    lot_href: str
    title: str
    href: str
    drawing: str
    poured: Day
    word: Message
    head: Message
    """The same, to begin with."""
    ready: Day
    left: Message
    day: int
    """Of its cure, which is the day of the shelf; it is over on day `days`."""
    days: int
    how: Message
    tested: bool
    span: Markup
    facts: tuple[Fact, ...]


class ShelfView(NamedTuple):
    """What cures, the next to be over first; what has cured, the lots held back first, then the latest.

    `states` are those of the past lots that need a word said once.
    """

    on: Day
    axis: Markup
    curing: tuple[ShelfLot, ...]
    past: tuple[LotRow, ...]
    years: tuple[YearLink, ...]
    """Where all others are, if `past` are the latest alone."""
    states: tuple[State, ...]
    loss: Value
    ahead: int
    """Lots poured after this day."""
    calendar: str
    cure_days: int
    compare: CureCompare | None


class Curing(NamedTuple):
    """A lot that cures on the day of the shelf, without its span, and that span, to be drawn on the scale of all."""

    lot: ShelfLot
    span: Span


class ShelfLine(NamedTuple):
    """A lot among all others: what is said of it once it has cured, and what while it cures."""

    slug: str
    lot: str
    poured: date
    past: LotLine
    curing: Curing | None
    dried: tuple[Dried, ...]


def shelf_lines(recipe: Published, site: SiteInput, up: str) -> Iterator[ShelfLine]:
    """The lots of one recipe."""
    for lot in lots_of(recipe):
        found = lot.readiness
        past = line(lot, found, site, up)
        yield ShelfLine(
            slug=recipe.slug,
            lot=lot.batch.lot,
            poured=lot.batch.poured,
            past=past,
            curing=_curing(lot, found, site, up) if past.row.state == "curing" else None,
            dried=tuple(dried_bars(lot, up)),
        )


def cure_shelf_view(site: SiteInput, every: Sequence[ShelfLine], up: str) -> ShelfView:
    """The shelf of all lots, which come the newest first."""
    by_state: dict[State, list[ShelfLine]] = {state: [] for state in STATES}
    for one in every:
        by_state[one.past.row.state].append(one)
    curing = [
        (one, one.curing)
        for one in sorted(by_state["curing"], key=lambda one: one.past.over)
        if one.curing is not None
    ]
    axis = axis_for([found.span for _, found in curing])
    years = year_links(site.recipes, up)
    past = [
        one.past.row
        for states in _ORDER
        for one in sorted(_of(by_state, states), key=lambda one: one.past.over, reverse=True)
    ]
    held = len(by_state["held"])
    return ShelfView(
        on=on_day(site.on),
        axis=Markup(days_axis(axis, speaker(site.book.settings.language, site.book.settings.units)))
        if curing
        else Markup(""),
        curing=tuple(_drawn(one, found, site, axis) for one, found in curing),
        past=tuple(past[: held + LATEST] if years else past),
        years=years,
        states=told_once({state for state in STATES if by_state[state]}),
        loss=percent(WEEKLY_LOSS, tight=True),
        ahead=len(by_state["ahead"]),
        calendar=up + links.READY if any(recipe.glance.free for recipe in site.recipes) else "",
        cure_days=site.book.settings.cure,
        compare=compare(bar for one in every for bar in one.dried),
    )


def _of(found: Mapping[State, Sequence[ShelfLine]], states: Sequence[State]) -> Iterator[ShelfLine]:
    return (one for state in states for one in found[state])


_ORDER: tuple[tuple[State, ...], ...] = (("held",), ("untested", "astray", "unknown", "ready"))
"""Those held back stand before all others."""


def _drawn(one: ShelfLine, found: Curing, site: SiteInput, axis: Axis) -> ShelfLot:
    """With its span."""
    drawn = message("shelf.span", lot=one.lot, poured=on_day(one.poured), ready=on_day(one.past.over))
    words = speaker(site.book.settings.language, site.book.settings.units).say(drawn)
    return replace(found.lot, span=Markup(span(found.span, axis, words, f"span-{one.past.row.id}")))


def _curing(lot: Lot, found: Readiness, site: SiteInput, up: str) -> Curing:
    stretch = Span((lot.batch.poured - site.on).days, (found.on - site.on).days)
    return Curing(_view(lot, found, site, up), stretch)


def _view(lot: Lot, found: Readiness, site: SiteInput, up: str) -> ShelfLot:
    batch = lot.batch
    return ShelfLot(
        lot=batch.lot,
        lot_href=up + lot.path,
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        drawing=up + links.drawing(lot.recipe.slug, "cured"),
        poured=on_day(batch.poured),
        word=found.word,
        head=found.head,
        ready=on_day(found.on),
        left=message("shelf.in", days=days((found.on - site.on).days)),
        day=(site.on - batch.poured).days,
        days=found.day,
        how=found.how,
        tested=lot.standing.tested is not None,
        span=Markup(""),
        facts=tuple(_weights(lot, found, site)),
    )


def _weights(lot: Lot, found: Readiness, site: SiteInput) -> Iterator[Fact]:
    age = (site.on - lot.batch.poured).days
    bars = cures(lot.batch)
    if not bars:
        yield Fact(message("shelf.weight"), message("shelf.not-known"), message("shelf.not-weighed"))
    for bar in bars:
        if isinstance(bar.fit, NoFit):
            day, weight = bar.weighings[-1]
            why = message("shelf.no-curve", why=why_none(bar.fit.reason)) if found.weighed else ""
            note = clauses(message("shelf.on-day", day=day), why)
            yield Fact(of_bar(message("shelf.last-weighed"), bar), grams(weight), note)
        else:
            yield from _fitted(bar, bar.fit, age, found.day)


def _fitted(bar: BarCure, fit: CureFit, age: int, ready: int) -> Iterator[Fact]:
    yield Fact(of_bar(message("shelf.day", day=age), bar), grams(weight_at(fit, age)), _reach(fit, age))
    if age < ready:
        label = of_bar(message("shelf.day-ready", day=ready), bar)
        yield Fact(label, grams(weight_at(fit, ready)), _reach(fit, ready))
    left = still_to_lose(fit, age)
    share = percent(left / weight_at(fit, age))
    text = (
        message("shelf.left", left=grams(left), share=share)
        if left >= 0.05
        else message("shelf.hardly", least=grams(0.1))
    )
    yield Fact(of_bar(message("shelf.to-lose"), bar), text, _settles(fit))


def _reach(fit: CureFit, day: int) -> Value:
    """How far a weighing on this day may lie off the curve."""
    reach = weight_interval(fit, day)
    if reach:
        sure = message("shelf.reach", between=_between(reach), share=percent(fit.confidence, 0))
    else:
        sure = message("shelf.unsure")
    if day > fit.last_day:
        return clauses(sure, message("shelf.beyond"))
    return clauses(sure, message("shelf.before")) if day < fit.first_day else sure


def _settles(fit: CureFit) -> Message:
    plateau, reach = grams(fit.plateau_g), fit.plateau_interval
    if reach is None:
        return message("shelf.settles", plateau=plateau)
    if reach[0] == -inf:
        return message("shelf.settles-at-most", plateau=plateau, most=grams(reach[1]))
    return message("shelf.settles-between", plateau=plateau, between=_between(reach))


def _between(reach: tuple[float, float]) -> Message:
    return message("shelf.between", low=grams(reach[0], bare=True), high=grams(reach[1]))
