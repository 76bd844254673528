"""The cure shelf: what is curing on the day the site speaks of, and what is ready when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from markupsafe import Markup

from saponary.book.curing import BarCure, cures
from saponary.draw.charts.cure_span import Axis, Span, axis_for, days_axis, span
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import still_to_lose, weight_at, weight_interval
from saponary.quantity.numbers import grams, percent
from saponary.views import links
from saponary.views.cure_compare import CureCompare, compare
from saponary.views.lots import Fact, state_of
from saponary.views.readiness import Lot, Readiness, lots, of_bar, readiness, sentence
from saponary.views.site import RecipeInput, SiteInput


@dataclass(frozen=True)
class ShelfLot:
    lot: str
    lot_href: str
    title: str
    href: str
    poured: str
    word: str
    ready: str
    left: str
    how: str
    held: str
    span: Markup
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class ShelfView:
    """What cures, the next to be ready first; what is ready, the latest first."""

    on: str
    axis: Markup
    curing: tuple[ShelfLot, ...]
    ready: tuple[ShelfLot, ...]
    ahead: str
    calendar: str
    cure_days: str
    compare: CureCompare | None


def cure_shelf_view(site: SiteInput, recipes: Sequence[RecipeInput], up: str) -> ShelfView:
    every = [(lot, readiness(lot.batch, site.book.settings.cure)) for lot in lots(recipes)]
    by_state: dict[str, list[tuple[Lot, Readiness]]] = {"curing": [], "ready": [], "ahead": []}
    for lot, found in every:
        by_state[state_of(lot.batch, found, site.on)].append((lot, found))
    curing = sorted(by_state["curing"], key=lambda pair: pair[1].on)
    ready = sorted(by_state["ready"], key=lambda pair: pair[1].on, reverse=True)
    axis = axis_for([_span(lot, found, site) for lot, found in curing])
    ahead = len(by_state["ahead"])
    return ShelfView(
        on=site.on.isoformat(),
        axis=Markup(days_axis(axis)) if curing else Markup(""),
        curing=tuple(_view(lot, found, site, up, axis) for lot, found in curing),
        ready=tuple(_view(lot, found, site, up, None) for lot, found in ready),
        ahead=f"{'One lot was' if ahead == 1 else f'{ahead} lots were'} poured after this day."
        if ahead
        else "",
        calendar=up + links.READY if every else "",
        cure_days=str(site.book.settings.cure),
        compare=compare(recipes, up),
    )


def _span(lot: Lot, found: Readiness, site: SiteInput) -> Span:
    return Span((lot.batch.poured - site.on).days, (found.on - site.on).days)


def _view(lot: Lot, found: Readiness, site: SiteInput, up: str, axis: Axis | None) -> ShelfLot:
    batch = lot.batch
    words = f"Lot {batch.lot}: poured {batch.poured.isoformat()}, ready {found.on.isoformat()}"
    return ShelfLot(
        lot=batch.lot,
        lot_href=f"{up}{links.LOTS}#{lot.anchor}",
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        poured=batch.poured.isoformat(),
        word=found.word,
        ready=found.on.isoformat(),
        left=_left((found.on - site.on).days),
        how=found.how,
        held=sentence(found.held),
        span=Markup(span(_span(lot, found, site), axis, words, f"span-{lot.anchor}")) if axis else Markup(""),
        facts=tuple(_facts(lot, found, site)),
    )


def _left(days: int) -> str:
    if days == 0:
        return "this very day"
    count = "1 day" if abs(days) == 1 else f"{abs(days)} days"
    return f"in {count}" if days > 0 else f"{count} ago"


def _facts(lot: Lot, found: Readiness, site: SiteInput) -> Iterator[Fact]:
    age = (site.on - lot.batch.poured).days
    bars = cures(lot.batch)
    if not lot.batch.free_alkali:
        yield Fact("Free alkali", "not tested yet", "test a bar before any is used or sold")
    if not bars:
        yield Fact("Weight", "not known", "no bar of it was weighed")
    for bar in bars:
        if isinstance(bar.fit, NoFit):
            day, weight = bar.weighings[-1]
            why = f"; no curve: {bar.fit.reason.value}" if found.weighed else ""
            yield Fact(of_bar("Last weighed", bar), grams(weight), f"on day {day}{why}")
        else:
            yield from _fitted(bar, bar.fit, age, found.day)


def _fitted(bar: BarCure, fit: CureFit, age: int, ready: int) -> Iterator[Fact]:
    yield Fact(of_bar(f"Day {age}", bar), grams(weight_at(fit, age)), _reach(fit, age))
    if age < ready:
        yield Fact(of_bar(f"Day {ready}, ready", bar), grams(weight_at(fit, ready)), _reach(fit, ready))
    left = still_to_lose(fit, age)
    share = left / weight_at(fit, age)
    told = f"{grams(left)}, {percent(share)} of the bar" if left >= 0.05 else "less than 0.1 g"
    yield Fact(of_bar("Water still to lose", bar), told, _settles(fit))


def _reach(fit: CureFit, day: int) -> str:
    """How far a weighing on this day may lie off the curve."""
    beyond = (
        "beyond the last weighing"
        if day > fit.last_day
        else "before the first weighing"
        if day < fit.first_day
        else ""
    )
    reach = weight_interval(fit, day)
    told = (
        f"{_between(reach)}, {percent(fit.confidence, 0)} of weighings"
        if reach
        else "three weighings cannot tell how surely"
    )
    return "; ".join(filter(None, (told, beyond)))


def _settles(fit: CureFit) -> str:
    told = f"settles at {grams(fit.plateau_g)}"
    reach = fit.plateau_interval
    if reach is None:
        return told
    if reach[0] == -inf:
        return f"{told}, at most {grams(reach[1])}; how far down is not sure yet"
    return f"{told} ({_between(reach)})"


def _between(reach: tuple[float, float]) -> str:
    return f"{grams(reach[0]).removesuffix(' g')} to {grams(reach[1])}"
