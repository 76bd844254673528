"""The photo a recipe is shown by: the one its maker chose, or the latest of the newest lot that may be sold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from saponary.book.published import Published
from saponary.lye.fingerprint import matches
from saponary.messages.message import Value, message, short
from saponary.schema.batch import Batch, PhotoRef
from saponary.views.batches import Photo, photo
from saponary.views.prose import Prose
from saponary.views.site import SiteInput


class Lead(NamedTuple):
    """A photo as a recipe names it, and the lot it is of ('' where no lot has it)."""

    shot: PhotoRef
    lot: str


def lead(recipe: Published) -> Lead | None:
    """None where a recipe has no photo, or its photos are of lots that are held back."""
    shots = list(_shots(recipe))
    chosen = recipe.model.photo
    if chosen is not None:
        lot = next((batch.lot for batch, shot in shots if shot.file == chosen.file), "")
        return Lead(chosen, lot)
    free = [(batch, shot) for batch, shot in shots if not recipe.standing[batch.lot].held]
    if not free:
        return None
    batch, shot = max(free, key=lambda pair: (*_worth(pair[0], recipe), pair[1].day))
    return Lead(shot, batch.lot)


def _shots(recipe: Published) -> Iterator[tuple[Batch, PhotoRef]]:
    for record in recipe.batches:
        yield from ((record.batch, shot) for shot in record.batch.photos)


def _worth(batch: Batch, recipe: Published) -> tuple[bool, bool, bool, str, str]:
    """Found free of alkali, of this very formula, without a fault; then the newest."""
    same = batch.formula is not None and matches(batch.formula, recipe.fingerprint)
    clean = recipe.standing[batch.lot].ready
    return clean, same, not batch.faults, batch.poured.isoformat(), batch.lot


def lead_photo(recipe: Published, site: SiteInput, prose: Prose) -> Photo | None:
    """The same with its addresses, and which lot it shows on which day."""
    first = lead(recipe)
    shown = photo(first.shot, site, prose, recipe.model.title) if first is not None else None
    if first is None or shown is None:
        return None
    return replace(shown, caption=caption(first, shown)) if first.lot else shown


def caption(first: Lead, shown: Photo) -> Value:
    """`Lot QS-014 on day 42.`"""
    if first.shot.day == 0:
        return message("photo.lot-poured", lot=first.lot)
    return message("photo.lot-day", lot=first.lot, day=short(first.shot.day))
