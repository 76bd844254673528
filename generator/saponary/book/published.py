"""A recipe as one edition may show it, made anew of what its readers may see and of nothing else.

A page is made of this and never of a recipe as it was computed. What the maker wrote is taken
field by field, by the marks in the schema; a batch comes by its own record, since a batch may
be of other editions than its recipe.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import NamedTuple

from saponary.assets.once import Once
from saponary.book.best_before import BestBefore, best_before_of
from saponary.book.computed import Computed
from saponary.book.cure_days import cure_days
from saponary.book.figure import Figure
from saponary.book.led_to import led_to
from saponary.book.on_sale import OnSale, on_sale, ready_day
from saponary.book.pictures import in_notes
from saponary.book.plain_title import plain_title
from saponary.book.proofed import Proofed
from saponary.book.quotes import Quote
from saponary.book.records import BatchRecord
from saponary.book.resolve import Resolved
from saponary.book.standing import Labelled, Standing, labelled, standings
from saponary.book.status import Status
from saponary.book.used import dressing, named, together, used
from saponary.lye.figures import Figures
from saponary.pantry.model import Pantry
from saponary.reading.tree import Tree
from saponary.schema.edition import Edition
from saponary.schema.recipe import Recipe
from saponary.schema.seen import only_seen, seen_once
from saponary.schema.settings import Settings

BARE = ("bare-figure",)
"""Rules that hold numbers outside braces to the recipe."""


@dataclass(frozen=True)
class Published:
    """One recipe of an edition, with the settings and the pantry's entries that it rests on."""

    slug: str
    path: str
    """Its file, from the book's folder."""
    notes: str
    """The text below its front matter, with the figures quoted in it."""
    pictures: tuple[str, ...]
    """The photos that its notes show, by their path inside `photos/`."""
    model: Recipe
    resolved: Resolved
    figures: Figures
    catalogue: Mapping[str, Figure]
    quotes: tuple[Quote, ...]
    fingerprint: str
    batches: tuple[BatchRecord, ...]
    settings: Settings
    pantry: Pantry
    status: Status
    standing: Mapping[str, Standing]
    """By lot, of those that are shown: whether it is held back, and whether it may be called ready."""
    labelled: Labelled
    best_before: Mapping[str, BestBefore]
    """By lot, of those that are shown: until when it is good, where that is known."""
    set_aside: int
    """How many bare numbers in its texts, or whole files of them, are set aside by a waiver."""
    remarks: tuple[str, ...]
    """What the checks warn of."""
    on_sale: OnSale
    """Nothing where the edition does not tell what is for sale."""

    @cached_property
    def glance(self) -> Glance:
        """What others ask of it."""
        of_lots = dict.fromkeys(shot.file for one in self.batches for shot in one.batch.photos)
        own = [self.model.photo.file] if self.model.photo is not None else []
        return Glance(
            title=self.model.title,
            named=plain_title(self.model.title, self.catalogue),
            collection=self.model.collection,
            photos=tuple(dict.fromkeys((*own, *of_lots))),
            of_lots=tuple(of_lots),
            pictures=self.pictures,
            scraps=self._scraps(),
            led_to=led_to(
                self.model, [one.batch for one in self.batches], self.settings, *_stated(self.pantry)
            ),
            notes_lead_to=led_to(self.notes),
            lots=tuple((one.batch.lot, one.batch.poured) for one in self.batches),
            sold=tuple(one.lot for one in self.on_sale.lots),
            free=any(not self.standing[one.batch.lot].held for one in self.batches),
            cured=self._cured(),
        )

    def _cured(self) -> date | None:
        cure = cure_days(self.model, self.settings)
        return max((ready_day(one.batch, cure) for one in self.batches), default=None)

    def _scraps(self) -> tuple[str, ...]:
        melted = (part.id for part in self.resolved.formula.remelted)
        entries = map(self.pantry.additions.get, (*dressing(self.model), *melted))
        return tuple(
            sorted({one.scrap_of for one in entries if one is not None and one.scrap_of is not None})
        )


def _stated(shelf: Pantry) -> Iterator[object]:
    """What the maker may have written of a small pantry: no standard entry leads to a recipe, but it may bear the
    title of one, and chips of colour with notes of the maker's."""
    for one in (*shelf.oils.values(), *shelf.liquids.values()):
        yield one if one.own else one.name
    for one in shelf.additions.values():
        yield one if one.own else (one.name, one.colour and one.colour.chips)
    yield from (shelf.moulds, shelf.infusions, shelf.fragrances, shelf.papers)


class Glance(NamedTuple):
    """What the rest of an edition asks of a recipe as it is published.

    `named` is its title with the figures in it, `photos` are all that its pages show but those in its notes,
    `of_lots` those of its batches, `pictures` those in its notes; `scraps` are recipes whose scrap its drawing
    shows, `led_to` those that its texts may lead to, and `notes_lead_to` those that its notes may; `lots` are its
    lots with the day of each, `sold` those for sale, `free` tells whether any is not held back, and `cured` on
    which day the cure of the last is over.
    """

    title: str
    named: str
    collection: str | None
    photos: tuple[str, ...]
    of_lots: tuple[str, ...]
    pictures: tuple[str, ...]
    scraps: tuple[str, ...]
    led_to: tuple[str, ...]
    notes_lead_to: tuple[str, ...]
    lots: tuple[tuple[str, date], ...]
    sold: tuple[str, ...]
    free: bool
    cured: date | None


def published(one: Proofed, edition: Edition, on: date, once: Once | None = None) -> Published:
    """A recipe that this edition shows, as it shows it on a day. `once` is kept for all recipes of the edition."""
    computed, shows = one.computed, edition.shows
    sold = on_sale(_within(edition, computed), on) if {"shop", "batches"} & shows else OnSale()
    standing = standings(computed)
    back = frozenset[str]()
    if "batches" not in shows:
        back = frozenset(lot for lot, found in standing.items() if found.held)
        if edition.reader == "customer":
            back = frozenset(standing) - sold.names
        computed = _without(back, computed)
    remarks = dict.fromkeys(_remarks(one, edition, back))
    records = tuple(r for record in computed.batches if (r := _record(record, edition)) is not None)
    weighed = named((n for r in records for n in (*r.batch.as_weighed, *r.batch.oil_lots)), computed.pantry)
    return Published(
        slug=computed.slug,
        path=computed.file.file,
        notes=computed.file.body if "notes" in shows else "",
        pictures=_in_notes(computed) if {"notes", "photos"} <= shows else (),
        model=only_seen(computed.model, edition.sight),
        resolved=computed.resolved,
        figures=computed.figures,
        catalogue=computed.catalogue,
        quotes=computed.quotes if "badge" in shows else (),
        fingerprint=computed.fingerprint,
        batches=records,
        settings=seen_once(computed.settings, edition.sight, once),
        pantry=only_seen(
            together((used(computed.model, computed.pantry, parts_of_scents=False), weighed)),
            edition.sight,
            once,
        ),
        standing={
            r.batch.lot: standing[r.batch.lot]
            if edition.formula == "full" and "batches" in shows
            else replace(standing[r.batch.lot], recount=None)
            for r in records
        },
        labelled=labelled(one.computed),
        best_before=_best_before(records, one.computed, "people" in shows),
        set_aside=sum(waiver.rule in BARE for waiver in one.computed.model.waive),
        status=one.status,
        remarks=tuple(remarks) if "remarks" in shows else (),
        on_sale=sold,
    )


def _best_before(records: Sequence[BatchRecord], computed: Computed, whose: bool) -> dict[str, BestBefore]:
    """By lot; which lot of which oil sets the day is told where `whose` is true."""
    found: dict[str, BestBefore] = {}
    for lot in (record.batch.lot for record in records):
        one = best_before_of(computed, lot)
        if one is not None:
            found[lot] = one if whose else replace(one, by=None)
    return found


def _remarks(one: Proofed, edition: Edition, back: frozenset[str]) -> Iterator[str]:
    """What the checks warned of, without what is said of a batch that the edition does not show."""
    hidden = [
        r for r in one.computed.batches if r.batch.lot in back or not belongs(r.batch.editions, edition)
    ]
    stretches = [(r.file, *lines) for r in hidden if (lines := r.lines()) is not None]
    lots = [re.compile(rf"(?<!\w){re.escape(r.batch.lot)}(?!\w)") for r in hidden]
    for finding in one.findings:
        where = finding.place
        inside = any(where.file == file and first <= where.line <= last for file, first, last in stretches)
        if (
            finding.severity == "warning"
            and not inside
            and not any(lot.search(finding.message) for lot in lots)
        ):
            yield finding.message


def _in_notes(computed: Computed) -> tuple[str, ...]:
    """The photos that its notes show, each once."""
    return tuple(dict.fromkeys(one.name for one in in_notes(computed.file)))


def _within(edition: Edition, computed: Computed) -> Computed:
    """A recipe without the batches that are of other editions."""
    return replace(computed, batches=tuple(r for r in computed.batches if belongs(r.batch.editions, edition)))


def _without(lots: frozenset[str], computed: Computed) -> Computed:
    """A recipe without these lots and without their photos, whoever else names them."""
    if not lots:
        return computed
    photos = {shot.file for r in computed.batches if r.batch.lot in lots for shot in r.batch.photos}
    model, photo = computed.model, computed.model.photo
    return replace(
        computed,
        batches=tuple(record for record in computed.batches if record.batch.lot not in lots),
        model=model.model_copy(
            update={
                "batches": [batch for batch in model.batches if batch.lot not in lots],
                "photo": None if photo is not None and photo.file in photos else photo,
            }
        ),
    )


def is_shown(one: Proofed, edition: Edition) -> bool:
    """Whether an edition has a page of a recipe at all."""
    drafts = "drafts" in edition.shows
    return belongs(one.facts.editions, edition) and (one.facts.status != "draft" or drafts)


def belongs(named: Sequence[str], edition: Edition) -> bool:
    """Whether something that names these editions is of this one; it is of all where it names none."""
    return not named or edition.name in named


def _record(record: BatchRecord, edition: Edition) -> BatchRecord | None:
    """A batch as far as it is shown: whole, or only its photos, or not at all."""
    if not belongs(record.batch.editions, edition):
        return None
    batch = only_seen(record.batch, edition.sight)
    shown = "batches" in edition.shows or batch.photos
    return BatchRecord(batch, record.file, Tree(), ()) if shown else None
