"""A recipe's photo on paper: the smallest of its published files that is sharp at the size it is printed."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from typing import NamedTuple

from saponary.book.published import Published
from saponary.messages.message import Value
from saponary.views.batches import Photo, photo
from saponary.views.lead_photo import Lead, caption, lead, lead_photo
from saponary.views.prose import Prose
from saponary.views.prose_links import PaperLinks
from saponary.views.site import SiteInput

DOTS_PER_MM = 300 / 25.4
"""What printers ask for: 300 dots an inch (common practice, no source)."""
SHEET, BOOK, PAIR = 50.0, 120.0, 84.0
"""How wide a photo is printed on a sheet, in the book, and in the book beside another, in mm."""


class PrintPhoto(NamedTuple):
    """A photo by its address from the top of the site; `caption` says which lot and day it shows."""

    src: str
    alt: Value
    caption: Value


def print_photo(recipe: Published, site: SiteInput, wide: float) -> PrintPhoto | None:
    """The photo of a recipe, to be printed `wide` mm wide; None where it has none to show."""
    found = lead_photo(recipe, site, _prose(recipe))
    return None if found is None else _printed(found, wide)


def other_photos(recipe: Published, site: SiteInput, wide: float, most: int) -> tuple[PrintPhoto, ...]:
    """Those of the same lot besides, by day: the first ones."""
    first = lead(recipe)
    if first is None or not first.lot:
        return ()
    shots = [
        shot
        for record in recipe.batches
        if record.batch.lot == first.lot
        for shot in record.batch.photos
        if shot.file != first.shot.file
    ]
    shown = (
        replace(found, caption=caption(Lead(shot, first.lot), found))
        for shot in sorted(shots, key=lambda shot: shot.day)
        if (found := photo(shot, site, _prose(recipe), recipe.model.title)) is not None
    )
    return tuple(_printed(each, wide) for each in islice(shown, most))


def _prose(recipe: Published) -> Prose:
    return Prose(recipe.catalogue, PaperLinks(frozenset()))


def _printed(found: Photo, wide: float) -> PrintPhoto:
    return PrintPhoto(_sharp(found, wide * DOTS_PER_MM), found.alt, found.caption)


def _sharp(photo: Photo, dots: float) -> str:
    """The address of the smallest JPEG of so many dots across, else of the largest."""
    sized = sorted(
        (int(width.removesuffix("w")), address)
        for kind, srcset in photo.sources
        if kind == "image/jpeg"
        for address, _, width in (one.strip().rpartition(" ") for one in srcset.split(","))
    )
    return next((address for width, address in sized if width >= dots), sized[-1][1] if sized else photo.src)
