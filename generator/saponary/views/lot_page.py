"""One lot's own page: what is in the bar somebody holds, when it was poured, whether it was tested.

Nothing on it changes with the day it is read. Who made the lot, where it is stored, what it cost and what was
noted in private stay with the maker; its shelf is told where the edition has it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.alkali_found import found as alkali_found
from saponary.book.on_sale import LotOnSale
from saponary.book.poured import OILS, Recount
from saponary.book.published import Published
from saponary.lye.fingerprint import matches
from saponary.messages.message import Listed, Message, Value, Within, clauses, message, percent
from saponary.messages.message import day as on_day
from saponary.pantry.model import Pantry
from saponary.views import links, names
from saponary.views.batches import BatchView, Photo, batch_view, photo
from saponary.views.facts import Fact
from saponary.views.lot_cure import LotCure, lot_cure
from saponary.views.lot_figures import good_until, test_name
from saponary.views.printed import of_lot
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.readiness import Lot
from saponary.views.shop_contents import Legal, Row, contents, legal
from saponary.views.site import SiteInput


class LotPage(NamedTuple):
    """`contents` are empty where the lot was poured to another formula than the recipe has: then `note` says so."""

    lot: str
    title: str
    href: str
    held: Message | None
    photo: Photo | None
    drawing: str
    facts: tuple[Fact, ...]
    faults: tuple[str, ...]
    """Ids, as `schema.batch` has them."""
    contents: tuple[Row, ...]
    legal: Legal | None
    note: Message | None
    labels: str
    """The command that makes labels of it, for its maker; empty where none are made."""
    batch: BatchView | None
    """None where the edition tells nothing of how it was made."""
    cure: LotCure | None


def lot_page(lot: Lot, site: SiteInput, up: str) -> LotPage:
    """`up` leads to the top of the site."""
    recipe, batch = lot.recipe, lot.batch
    prose = Prose(recipe.catalogue, Links(site.slugs, up, pages=site.pages))
    same = batch.formula is not None and matches(batch.formula, recipe.fingerprint)
    bar = site.labels.get(recipe.slug) if same else None
    shot = max(batch.photos, key=lambda shot: shot.day, default=None)
    shown = photo(shot, site, prose, recipe.model.title) if shot is not None else None
    return LotPage(
        lot=batch.lot,
        title=lot.title,
        href=up + links.recipe_page(recipe.slug),
        held=lot.readiness.held,
        photo=shown,
        drawing=up + links.drawing(recipe.slug, "cured"),
        facts=tuple(_facts(lot, site)),
        faults=tuple(dict.fromkeys(batch.faults)),
        contents=contents(bar) if bar is not None else (),
        legal=legal(bar, site.book.settings) if bar is not None else None,
        note=None if same or recipe.slug not in site.labels else message("lot.not-listed"),
        labels=of_lot(batch.lot, recipe, site) if same or batch.formula is None else "",
        batch=batch_view(batch, recipe, site, prose),
        cure=lot_cure(
            batch, recipe, site, prose, shot.file if shot is not None and shown is not None else ""
        ),
    )


def _facts(lot: Lot, site: SiteInput) -> Iterator[Fact]:
    batch, found = lot.batch, lot.readiness
    yield Fact(message("shelf.head.poured"), on_day(batch.poured))
    if found.held is None:
        yield Fact(found.head, on_day(found.on), message("lot.day-of-cure", day=found.day, how=found.how))
    yield from _tests(lot)
    formula, note = _formula(lot, site)
    yield Fact(message("lots.head.formula"), formula, note)
    poured = _superfat(lot) if site.edition.formula == "full" else None
    if poured is not None:
        yield poured
    good = good_until(lot.recipe, batch)
    if good is not None:
        yield Fact(message("lots.good-until"), good)
    if batch.shelf:
        yield Fact(message("lots.shelf"), batch.shelf)


def _tests(lot: Lot) -> Iterator[Fact]:
    label = message("lot.free-alkali")
    for test in sorted(lot.batch.free_alkali, key=lambda t: t.on):
        seen = alkali_found(test, lot.recipe.settings)
        when = message("lots.tested", day=on_day(test.on), test=test_name(test, lot.recipe))
        yield Fact(label, message(f"lots.alkali.{seen}"), when)
    if not lot.batch.free_alkali:
        yield Fact(label, message("lot.not-tested"), message("shelf.test-first"))


def _formula(lot: Lot, site: SiteInput) -> tuple[Message, Value]:
    """Whether a lot was poured to the recipe as it stands, and what is known of it where not."""
    recorded, recipe = lot.batch.formula, lot.recipe
    if recorded is None:
        return message("lots.formula.unrecorded"), ""
    if matches(recorded, recipe.fingerprint):
        return message("lots.formula.this"), ""
    since = site.earlier.get(recipe.slug, {}).get(recorded) if site.edition.formula == "full" else None
    earlier = message("lots.formula.earlier")
    if since:
        return earlier, message("lots.formula.changed", formula=recorded, changes=clauses(*since))
    return earlier, message("lots.formula.now", formula=recorded, now=recipe.fingerprint)


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


KEYS_BY_ID = {"lots.alkali.": ("none", "trace", "present")}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def sold_lots(recipe: Published) -> tuple[tuple[str, LotOnSale], ...]:
    """The lots of a recipe that are for sale, each with the address of its page."""
    names = links.free_names([sold.lot for sold in recipe.on_sale.lots])
    return tuple(
        (links.lot(recipe.slug, name), sold) for name, sold in zip(names, recipe.on_sale.lots, strict=True)
    )


def sold_lot(recipe: Published, sold: LotOnSale, site: SiteInput, up: str) -> LotPage:
    """The same for a customer: what is in it, that it has cured, and that a test found no free alkali."""
    prose, bar = Prose(recipe.catalogue, Links(up=up)), site.labels.get(recipe.slug)
    shots = [s for record in recipe.batches if record.batch.lot == sold.lot for s in record.batch.photos]
    shot = max(shots, key=lambda shot: shot.day, default=None)
    facts = (
        Fact(message("shelf.head.poured"), on_day(sold.poured)),
        Fact(message("lot.ready-head"), on_day(sold.ready)),
        Fact(message("lot.free-alkali"), message("lots.alkali.none"), on_day(sold.tested)),
    )
    return LotPage(
        lot=sold.lot,
        title=prose.title(recipe.model.title),
        href=up + links.recipe_page(recipe.slug),
        held=None,
        photo=photo(shot, site, prose, recipe.model.title) if shot is not None else None,
        drawing=up + links.drawing(recipe.slug, "cured"),
        facts=facts,
        faults=(),
        contents=contents(bar) if bar is not None else (),
        legal=legal(bar, site.book.settings) if bar is not None else None,
        note=None,
        labels="",
        batch=None,
        cure=None,
    )
