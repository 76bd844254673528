"""A lot as one row of a table, and what may be said of it on a day: the same for the page of lots and the shelf."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal, NamedTuple, get_args

from saponary.book.curing import cures
from saponary.book.published import Published
from saponary.book.standing import Name
from saponary.lye.fingerprint import matches
from saponary.messages.message import Day, Message, Value, percent
from saponary.messages.message import day as on_day
from saponary.schema.batch import Batch, Fault
from saponary.views import links
from saponary.views.batches import Photo, photo
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.readiness import Lot, Readiness, lots_of
from saponary.views.site import SiteInput

State = Literal["held", "untested", "astray", "unknown", "curing", "ahead", "ready"]
"""On a day: `ahead` is poured after it; `untested`, `astray` and `unknown` have cured, and may not be called ready."""

STATES: tuple[State, ...] = get_args(State)

MANY = 60
"""Lots that a table holds; of more, only the latest stand in it, and each year has a page of its own."""
LATEST = 24


class LotRow(NamedTuple):
    """`ready` is None where no day is told; `drawing` stands where there is no picture.

    `loss` is what its bars lost so far; `faults` are ids, as `schema.batch` has them; `earlier` where it
    was poured to another formula than the recipe has now.
    """

    id: str
    lot: str
    lot_href: str
    title: str
    href: str
    picture: Photo | None
    drawing: str
    poured: Day
    state: State
    ready: Day | None
    earlier: bool
    loss: Value
    tested: Day | None
    held: Message | None
    faults: tuple[str, ...]


class LotLine(NamedTuple):
    """A lot among all others: what it goes by, when it was poured and when its cure is over, its word, its row."""

    slug: str
    lot: str
    poured: date
    over: date
    word: Message
    row: LotRow


@dataclass(frozen=True)
class YearLink:
    """The lots of a year, where they have a page of their own."""

    year: str
    count: int
    href: str


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


def lines(recipe: Published, site: SiteInput, up: str) -> Iterator[LotLine]:
    """The lots of one recipe; `up` leads to the top of the site."""
    for lot in lots_of(recipe):
        yield line(lot, lot.readiness, site, up)


def line(lot: Lot, found: Readiness, site: SiteInput, up: str) -> LotLine:
    """One lot."""
    shown = row(lot, found, site, up)
    return LotLine(lot.recipe.slug, lot.batch.lot, lot.batch.poured, found.on, found.word, shown)


def row(lot: Lot, found: Readiness, site: SiteInput, up: str) -> LotRow:
    """One lot; `up` leads to the top of the site."""
    batch, tested = lot.batch, lot.standing.tested
    return LotRow(
        id=lot.anchor,
        lot=batch.lot,
        lot_href=up + lot.path,
        title=lot.title,
        href=up + links.recipe_page(lot.recipe.slug),
        picture=_latest(lot, site, up),
        drawing=up + links.drawing(lot.recipe.slug, "cured"),
        poured=on_day(batch.poured, "short"),
        state=state_of(batch, found, site.on),
        ready=on_day(found.on, "short") if found.held is None else None,
        earlier=batch.formula is not None and not matches(batch.formula, lot.recipe.fingerprint),
        loss=_lost(lot),
        tested=on_day(tested, "short") if tested is not None else None,
        held=found.held,
        faults=tuple(dict.fromkeys(batch.faults)),
    )


def _latest(lot: Lot, site: SiteInput, up: str) -> Photo | None:
    """The latest photo that is there to be shown."""
    prose = Prose(lot.recipe.catalogue, Links(up=up))
    shots = sorted(lot.batch.photos, key=lambda shot: shot.day, reverse=True)
    pictures = (photo(shot, site, prose, lot.recipe.model.title) for shot in shots)
    return next((one for one in pictures if one is not None), None)


def _lost(lot: Lot) -> Value:
    """What its slowest bar lost from its first weighing to its last."""
    ends = [(bar.weighings[0][1], bar.weighings[-1][1]) for bar in cures(lot.batch) if len(bar.weighings) > 1]
    return percent(min((first - last) / first for first, last in ends), tight=True) if ends else ""


def told_once(states: set[State]) -> tuple[State, ...]:
    """Those states of a table that need a word said once, beside it."""
    return tuple(state for state in STATES if state in states and state in _EXPLAINED)


_EXPLAINED: tuple[State, ...] = ("held", "untested", "astray", "unknown")

KEYS_BY_ID = {
    "shelf.past.": (
        *(f"{state}.title" for state in STATES),
        *(f"{state}.about" for state in _EXPLAINED),
    ),
    "fault.": tuple(f"{fault}.{part}" for fault in get_args(Fault) for part in ("name", "meaning")),
}
"""Keys that are put together in templates: what they start with, and the ids that may follow."""
