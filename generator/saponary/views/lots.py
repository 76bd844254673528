"""The page of lots: every batch of the published recipes, the newest first.

It tells what a lot is and how it fared. Who made it, where it is stored, what it cost and
what was noted in private stay with the maker; its shelf is told where the edition has it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

from saponary.book.alkali_found import found
from saponary.book.curing import BarCure, cures
from saponary.book.poured import OILS, Recount
from saponary.book.published import Published
from saponary.book.standing import Name
from saponary.lye.fingerprint import matches
from saponary.messages.message import Listed, Message, Value, Within, clauses, grams, message, percent
from saponary.pantry.model import Pantry
from saponary.schema.batch import Batch, Fault
from saponary.views import links, names
from saponary.views.facts import Fact, days, of_bar
from saponary.views.lot_figures import good_until, test_name
from saponary.views.readiness import Lot, Readiness, lots
from saponary.views.site import SiteInput

State = Literal["ready", "curing", "ahead", "held", "untested", "astray", "unknown"]
"""On a day: `untested` and `unknown` have cured, and may not be called ready."""


@dataclass(frozen=True)
class LotView:
    """`faults` are ids, as `schema.batch` has them."""

    id: str
    lot: str
    title: str
    href: str
    poured: str
    formula: Message
    formula_note: Message | None
    state: State
    age: Message
    ready: str
    ready_lead: Message
    how: Message
    held: Message | None
    facts: tuple[Fact, ...]
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Year:
    id: str
    year: str
    lots: tuple[LotView, ...]


@dataclass(frozen=True)
class LotsView:
    on: str
    count: int
    years: tuple[Year, ...]


def lots_view(site: SiteInput, recipes: Sequence[Published], up: str) -> LotsView:
    years: dict[str, list[LotView]] = {}
    every = lots(recipes)
    for lot in every:
        years.setdefault(str(lot.batch.poured.year), []).append(_view(lot, site, up))
    return LotsView(
        on=site.on.isoformat(),
        count=len(every),
        years=tuple(Year(f"poured-{year}", year, tuple(found)) for year, found in years.items()),
    )


def _view(lot: Lot, site: SiteInput, up: str) -> LotView:
    batch, found = lot.batch, lot.readiness
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
        ready="" if found.held is not None else found.on.isoformat(),
        ready_lead=_lead(found, state),
        how=found.how,
        held=found.held,
        facts=tuple(_facts(lot, site)),
        faults=tuple(dict.fromkeys(batch.faults)),
    )


def state_of(batch: Batch, found: Readiness, on: date) -> State:
    if batch.poured > on:
        return "ahead"
    if found.held is not None:
        return "held"
    if found.on > on:
        return "curing"
    return _CURED.get(found.name, "unknown")


_CURED: Mapping[Name, State] = {"untested": "untested", "astray": "astray", "clean": "ready"}
"""What a lot is called that has cured and is not held."""


def _lead(found: Readiness, state: State) -> Message:
    if found.held is not None:
        return message("lots.no-day")
    if state in ("untested", "astray", "unknown"):
        return message("lots.since", what=message(f"lot.cured-{state}-head"))
    if state == "ready":
        return message("lots.since", what=found.head)
    return message("lots.on", what=found.head)


def _age(batch: Batch, state: State, on: date) -> Message:
    if state == "ahead":
        return message("lots.age.ahead", day=on.isoformat())
    cured = days((on - batch.poured).days)
    return (
        message("lots.age.curing", days=cured)
        if state == "curing"
        else message("lots.age.held", days=cured)
        if state == "held"
        else message("lots.age.ready", days=cured)
    )


def formula_state(lot: Lot, site: SiteInput) -> tuple[Message, Message | None]:
    """Whether a lot was poured to the recipe as it stands, and what is known of it where not."""
    recorded, computed = lot.batch.formula, lot.recipe
    if recorded is None:
        return message("lot.formula.unrecorded"), None
    if matches(recorded, computed.fingerprint):
        return message("lot.formula.this"), None
    since = site.earlier.get(lot.recipe.slug, {}).get(recorded) if site.edition.formula == "full" else None
    earlier = message("lot.formula.earlier")
    if since:
        return earlier, message("lots.formula.changed", formula=recorded, changes=clauses(*since))
    return earlier, message("lots.formula.now", formula=recorded, now=computed.fingerprint)


def _facts(lot: Lot, site: SiteInput) -> Iterator[Fact]:
    batch = lot.batch
    for bar in cures(batch):
        yield _weighed(bar)
    poured = _superfat(lot) if site.edition.formula == "full" else None
    if poured is not None:
        yield poured
    for test in sorted(batch.free_alkali, key=lambda t: t.on):
        when = message("lots.tested", day=test.on.isoformat(), test=test_name(test, lot.recipe))
        seen = found(test, lot.recipe.settings)
        yield Fact(message("lot.free-alkali"), message(f"lots.alkali.{seen}"), when)
    if not batch.free_alkali:
        yield Fact(message("lot.free-alkali"), message("lot.not-tested"))
    good = good_until(lot.recipe, batch)
    if good is not None:
        yield Fact(message("lots.good-until"), good)
    if batch.shelf:
        yield Fact(message("lots.shelf"), batch.shelf)


KEYS_BY_ID = {
    "lots.alkali.": ("none", "trace", "present"),
    "lot.cured-": ("untested-head", "astray-head", "unknown-head", "untested", "astray", "unknown"),
    "fault.": tuple(f"{fault}.{part}" for fault in get_args(Fault) for part in ("name", "meaning")),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _weighed(bar: BarCure) -> Fact:
    (first_day, first), (last_day, last) = bar.weighings[0], bar.weighings[-1]
    label = of_bar(message("lots.weighed"), bar)
    if len(bar.weighings) == 1:
        return Fact(label, grams(first), message("lots.once", day=first_day))
    span = message("lots.from-to", first=grams(first), last=grams(last))
    if first > last:
        span = message("lots.lost", span=span, share=percent((first - last) / first))
    return Fact(
        label, span, message("lots.weighings", count=len(bar.weighings), first=first_day, last=last_day)
    )


def _superfat(lot: Lot) -> Fact | None:
    """What the recorded weights really give, whatever the recipe is now."""
    found = lot.standing.recount
    if found is None:
        return None
    pantry = lot.recipe.pantry
    if found.superfat is None:
        return Fact(message("lots.superfat"), message("shelf.not-known"), unknown(found, pantry))
    note: Value = message("lots.by-own-weights")
    if found.caustic:
        note = message("lots.free-lye")
    elif not found.known:
        note = unknown(found, pantry)
    if found.assumed:
        note = clauses(note, message("lots.assumed", names=names.together(pantry, found.assumed)))
    return Fact(message("lots.superfat"), percent(found.superfat), note)


def unknown(found: Recount, pantry: Pantry) -> Message:
    """What keeps a lot's superfat from being known."""
    if not (found.lacking or found.strange):
        uncounted = tuple(Within(names.anything(pantry, name)) for name in found.uncounted)
        return message("lots.uncounted", names=Listed(uncounted))
    lacking = (
        message("lots.its-oils") if name == OILS else Within(names.anything(pantry, name))
        for name in (*found.lacking, *found.strange)
    )
    return message("lots.not-recorded", names=Listed(tuple(lacking)))
