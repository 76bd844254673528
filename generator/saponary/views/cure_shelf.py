"""The cure shelf: what is curing on the day the site speaks of, and what is ready when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf
from typing import get_args

from markupsafe import Markup

from saponary.book.curing import WEEKLY_LOSS, BarCure, cures
from saponary.book.published import Published
from saponary.draw.charts.cure_span import Axis, Span, axis_for, days_axis, span
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import still_to_lose, weight_at, weight_interval
from saponary.messages.message import Message, Value, clauses, grams, message, percent
from saponary.messages.message import day as message_day
from saponary.messages.speaker import speaker
from saponary.schema.batch import Fault
from saponary.views import links
from saponary.views.batches import Photo, photo
from saponary.views.cure_compare import CureCompare, compare
from saponary.views.facts import Fact, days, of_bar
from saponary.views.lots import State, state_of
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.readiness import Lot, Readiness, lots, ready_lots, why_none
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class ShelfLot:
    lot: str
    lot_href: str
    title: str
    href: str
    poured: str
    word: Message
    ready: str
    left: Message
    how: Message
    held: Message | None
    span: Markup
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class PastLot:
    """A lot that has cured or is held back; `state` is what may be said of it, `ready` None where no day is told.

    `picture` is its latest photo, `drawing` stands where it has none. `loss` is what its bars lost so far.
    """

    lot: str
    lot_href: str
    title: str
    href: str
    picture: Photo | None
    drawing: str
    poured: Value
    state: State
    ready: Value | None
    loss: Value
    tested: Value | None
    held: Message | None
    faults: tuple[str, ...]


@dataclass(frozen=True)
class ShelfView:
    """What cures, the next to be over first; what has cured, the lots held back first, then the latest.

    `states` are those of the past lots that need a word said once.
    """

    on: str
    axis: Markup
    curing: tuple[ShelfLot, ...]
    past: tuple[PastLot, ...]
    states: tuple[State, ...]
    loss: Value
    ahead: int
    """Lots poured after this day."""
    calendar: str
    cure_days: int
    compare: CureCompare | None


def cure_shelf_view(site: SiteInput, recipes: Sequence[Published], up: str) -> ShelfView:
    every = [(lot, lot.readiness) for lot in lots(recipes)]
    by_state: dict[State, list[tuple[Lot, Readiness]]] = {state: [] for state in get_args(State)}
    for lot, found in every:
        by_state[state_of(lot.batch, found, site.on)].append((lot, found))
    curing = sorted(by_state["curing"], key=lambda pair: pair[1].on)
    axis = axis_for([_span(lot, found, site) for lot, found in curing])
    return ShelfView(
        on=site.on.isoformat(),
        axis=Markup(days_axis(axis, speaker(site.book.settings.language, site.book.settings.units)))
        if curing
        else Markup(""),
        curing=tuple(_view(lot, found, site, up, axis) for lot, found in curing),
        past=tuple(
            _past(lot, found, state, site, up)
            for state in _ORDER
            for lot, found in sorted(by_state[state], key=lambda pair: pair[1].on, reverse=True)
        ),
        states=tuple(state for state in _ORDER if by_state[state] and state != "ready"),
        loss=percent(WEEKLY_LOSS, tight=True),
        ahead=len(by_state["ahead"]),
        calendar=up + links.READY if ready_lots(recipes) else "",
        cure_days=site.book.settings.cure,
        compare=compare(recipes, up),
    )


_ORDER: tuple[State, ...] = ("held", "untested", "astray", "unknown", "ready")

KEYS_BY_ID = {
    "shelf.past.": tuple(f"{state}.{part}" for state in _ORDER for part in ("title", "about")),
    "fault.": tuple(f"{fault}.name" for fault in get_args(Fault)),
}
"""Keys that are put together here or in the template: what they start with, and the ids that may follow."""


def _past(lot: Lot, found: Readiness, state: State, site: SiteInput, up: str) -> PastLot:
    batch, tested = lot.batch, lot.standing.tested
    prose = Prose(lot.recipe.catalogue, Links(up=up))
    shots = sorted(batch.photos, key=lambda shot: shot.day, reverse=True)
    pictures = (photo(shot, site, prose, lot.recipe.model.title) for shot in shots)
    return PastLot(
        lot=batch.lot,
        lot_href=f"{up}{links.LOTS}#{lot.anchor}",
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        picture=next((one for one in pictures if one is not None), None),
        drawing=up + links.drawing(lot.recipe.slug, "cured"),
        poured=message_day(batch.poured, "short"),
        state=state,
        ready=message_day(found.on, "short") if found.held is None else None,
        loss=_lost(lot),
        tested=message_day(tested, "short") if tested is not None else None,
        held=found.held,
        faults=tuple(dict.fromkeys(batch.faults)),
    )


def _lost(lot: Lot) -> Value:
    """What its slowest bar lost from its first weighing to its last."""
    ends = [(bar.weighings[0][1], bar.weighings[-1][1]) for bar in cures(lot.batch) if len(bar.weighings) > 1]
    return percent(min((first - last) / first for first, last in ends), tight=True) if ends else ""


def _span(lot: Lot, found: Readiness, site: SiteInput) -> Span:
    return Span((lot.batch.poured - site.on).days, (found.on - site.on).days)


def _view(lot: Lot, found: Readiness, site: SiteInput, up: str, axis: Axis | None) -> ShelfLot:
    batch = lot.batch
    drawn = message("shelf.span", lot=batch.lot, poured=batch.poured.isoformat(), ready=found.on.isoformat())
    words = speaker(site.book.settings.language, site.book.settings.units).say(drawn)
    return ShelfLot(
        lot=batch.lot,
        lot_href=f"{up}{links.LOTS}#{lot.anchor}",
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        poured=batch.poured.isoformat(),
        word=found.word,
        ready="" if found.held is not None else found.on.isoformat(),
        left=_left((found.on - site.on).days),
        how=found.how,
        held=found.held,
        span=Markup(span(_span(lot, found, site), axis, words, f"span-{lot.anchor}")) if axis else Markup(""),
        facts=tuple(_facts(lot, found, site)),
    )


def _left(left: int) -> Message:
    if left == 0:
        return message("shelf.today")
    return message("shelf.in", days=days(left)) if left > 0 else message("shelf.ago", days=days(-left))


def _facts(lot: Lot, found: Readiness, site: SiteInput) -> Iterator[Fact]:
    age = (site.on - lot.batch.poured).days
    bars = cures(lot.batch)
    if not lot.batch.free_alkali:
        yield Fact(message("lot.free-alkali"), message("lot.not-tested"), message("shelf.test-first"))
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
