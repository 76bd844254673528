"""The page of lots: every batch of the published recipes, the newest first.

It tells what a lot is and how it fared. Who made it, where it is stored, what it cost and
what was noted in private stay with the maker; its shelf is told where the edition has it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from saponary.book.curing import BarCure, cures
from saponary.lye.fingerprint import matches
from saponary.lye.poured import as_poured
from saponary.quantity.numbers import grams, percent
from saponary.schema.batch import FAULTS, Batch
from saponary.views import links, names
from saponary.views.readiness import Lot, Readiness, lots, of_bar, readiness, sentence
from saponary.views.site import RecipeInput, SiteInput


@dataclass(frozen=True)
class Fact:
    """A line about a lot: what, the figure, and a word beside it."""

    label: str
    text: str
    note: str = ""


@dataclass(frozen=True)
class LotView:
    """`state` is one of: ready, curing, ahead."""

    id: str
    lot: str
    title: str
    href: str
    poured: str
    formula: str
    formula_note: str
    state: str
    age: str
    ready: str
    ready_lead: str
    how: str
    held: str
    facts: tuple[Fact, ...]
    faults: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Year:
    id: str
    year: str
    lots: tuple[LotView, ...]


@dataclass(frozen=True)
class LotsView:
    on: str
    count: str
    years: tuple[Year, ...]


def lots_view(site: SiteInput, recipes: Sequence[RecipeInput], up: str) -> LotsView:
    years: dict[str, list[LotView]] = {}
    every = lots(recipes)
    for lot in every:
        years.setdefault(str(lot.batch.poured.year), []).append(_view(lot, site, up))
    return LotsView(
        on=site.on.isoformat(),
        count="1 lot" if len(every) == 1 else f"{len(every)} lots",
        years=tuple(Year(f"poured-{year}", year, tuple(found)) for year, found in years.items()),
    )


def _view(lot: Lot, site: SiteInput, up: str) -> LotView:
    batch, found = lot.batch, readiness(lot.batch, site.book.settings.cure)
    formula, note = formula_state(lot, site)
    state = state_of(batch, found, site.on)
    return LotView(
        id=lot.anchor,
        lot=batch.lot,
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        poured=batch.poured.isoformat(),
        formula=formula,
        formula_note=note,
        state=state,
        age=_age(batch, state, site.on),
        ready=found.on.isoformat(),
        ready_lead=f"{found.word.capitalize()} {'since' if state == 'ready' else 'on'}",
        how=found.how,
        held=sentence(found.held),
        facts=tuple(_facts(lot, site)),
        faults=tuple((fault.replace("-", " "), FAULTS[fault]) for fault in dict.fromkeys(batch.faults)),
    )


def state_of(batch: Batch, found: Readiness, on: date) -> str:
    if batch.poured > on:
        return "ahead"
    return "ready" if found.on <= on else "curing"


def _age(batch: Batch, state: str, on: date) -> str:
    days = (on - batch.poured).days
    if state == "ahead":
        return f"Poured after {on.isoformat()}"
    told = "1 day" if days == 1 else f"{days} days"
    return f"Cured {told}" if state == "ready" else f"Curing, {told} so far"


def formula_state(lot: Lot, site: SiteInput) -> tuple[str, str]:
    """Whether a lot was poured to the recipe as it stands, and what is known of it where not."""
    recorded, computed = lot.batch.formula, lot.recipe.computed
    if recorded is None:
        return "formula not recorded", ""
    if matches(recorded, computed.fingerprint):
        return "this formula", ""
    since = site.earlier.get(lot.recipe.slug, {}).get(recorded) if site.edition.formula == "full" else None
    what = f"changed since: {'; '.join(since)}" if since else f"the recipe is now {computed.fingerprint}"
    return "poured to an earlier formula", f"Formula {recorded}; {what}"


def _facts(lot: Lot, site: SiteInput) -> Iterator[Fact]:
    batch = lot.batch
    for bar in cures(batch):
        yield _weighed(bar)
    poured = _superfat(lot) if site.edition.formula == "full" else None
    if poured is not None:
        yield poured
    for test in sorted(batch.free_alkali, key=lambda t: t.on):
        yield Fact("Free alkali", _RESULTS[test.result], f"{test.on.isoformat()}, {test.test}")
    if not batch.free_alkali:
        yield Fact("Free alkali", "not tested yet")
    if batch.shelf:
        yield Fact("Shelf", batch.shelf)


_RESULTS = {"none": "none found", "trace": "a trace", "present": "present"}


def _weighed(bar: BarCure) -> Fact:
    (first_day, first), (last_day, last) = bar.weighings[0], bar.weighings[-1]
    if len(bar.weighings) == 1:
        return Fact(of_bar("Weighed", bar), grams(first), f"once, on day {first_day}")
    lost = first - last
    share = f", {percent(lost / first)} lost" if lost > 0 and first > 0 else ""
    return Fact(
        of_bar("Weighed", bar),
        f"{grams(first)} to {grams(last)}{share}",
        f"{len(bar.weighings)} weighings, day {first_day} to day {last_day}",
    )


def _superfat(lot: Lot) -> Fact | None:
    """What the recorded weights really give; only where they were weighed for this very formula."""
    batch, computed = lot.batch, lot.recipe.computed
    recorded = {name: mass.grams for name, mass in batch.as_weighed.items() if mass is not None}
    if not recorded or batch.formula is None or not matches(batch.formula, computed.fingerprint):
        return None
    figures = computed.figures
    found = as_poured(computed.resolved.formula, figures.water.plain, figures.weights, recorded)
    note = "free lye: not for use" if found.superfat < 0 else f"{percent(figures.superfat)} by the formula"
    if found.assumed:
        assumed = [names.inside(names.anything(computed.pantry, name)) for name in found.assumed]
        note += f"; as the formula has it, since not recorded: {names.listed(assumed)}"
    return Fact("Superfat as poured", percent(found.superfat), note)
