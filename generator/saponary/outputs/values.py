"""The values that files of a site rest on, by the names of `rests_on.py`, as plain data to be digested."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import fields
from pathlib import Path
from typing import cast

from saponary.assets.digest import digest
from saponary.assets.once import made_once
from saponary.book.published import Published
from saponary.outputs import rests_on
from saponary.pantry.model import Pantry
from saponary.views.printed import of_labels, of_recipe
from saponary.views.site import SiteInput


def value_of(name: str, site: SiteInput, templates: Sequence[Path], navigation: object) -> object:
    """What is under a name, made of plain data. Raises KeyError for a name that is none of these."""
    slug = rests_on.slug_of(name)
    if slug is not None:
        return _ABOUT_ONE[name.removesuffix(slug)](slug, site)
    common: dict[str, Callable[[], object]] = {
        rests_on.SETTINGS: lambda: site.book.settings,
        rests_on.EDITION: lambda: site.edition,
        rests_on.TEMPLATES: lambda: [_texts(folder) for folder in templates],
        rests_on.NAVIGATION: lambda: navigation,
        rests_on.VERSIONS: lambda: (site.engine, site.tables),
        rests_on.PANTRY: lambda: site.book.own_pantry,
        rests_on.DAY: lambda: site.on,
        rests_on.TITLES: lambda: [_title(one) for one in site.in_order],
        rests_on.LOTS: lambda: [(one.slug, one.glance.lots, one.glance.free) for one in site.recipes],
        rests_on.CLASSES: lambda: [(read.slug, read.body, read.plan) for read in site.book.classes],
        rests_on.LOGO: lambda: site.book.logo,
        rests_on.PAGES: lambda: _pages(site),
        rests_on.PDFS: lambda: sorted(site.pdfs),
        rests_on.WAIVERS: lambda: site.book.waived,
    }
    return common[name]()


def _pages(site: SiteInput) -> object:
    pages = site.book.pages
    return pages, [site.photos.get(name) for page in pages for name in page.pictures]


def _of_notes(slug: str, site: SiteInput) -> object:
    one = site.by_slug.get(slug)
    if one is None:
        return None
    return [getattr(one, field) for field in _OF_NOTES], [site.photos.get(name) for name in one.pictures]


def _of_recipe(slug: str, site: SiteInput) -> object:
    """A recipe's values by field; None where the site has no such recipe."""
    one = site.by_slug.get(slug)
    if one is None:
        return None
    own = {f.name: getattr(one, f.name) for f in fields(one) if f.name not in _APART}
    shown = [shot.file for record in one.batches for shot in record.batch.photos]
    if one.model.photo is not None:
        shown.append(one.model.photo.file)
    label = site.labels.get(slug)
    in_it = label and [getattr(label, f.name) for f in fields(label) if f.name != "pantry"]
    shelves = [one.pantry, *([label.pantry] if label else [])]
    entries = [_entries(shelf, site) for shelf in shelves]
    return own, [site.photos.get(name) for name in shown], in_it, entries


_OF_NOTES = ("notes", "quotes", "pictures")
"""Fields of a recipe that its own page alone shows."""
_APART = ("settings", "pantry", *_OF_NOTES)
"""Fields of a recipe that are of other values, or are told entry by entry."""


def _entries(shelf: Pantry, site: SiteInput) -> object:
    """A small pantry, each of its entries as a digest that is made once for all recipes."""
    tables = {f.name: getattr(shelf, f.name) for f in fields(shelf)}
    return {
        name: {id: made_once(entry, digest, site.digested) for id, entry in cast("Table", table).items()}
        if isinstance(table, Mapping)
        else table
        for name, table in tables.items()
    }


Table = Mapping[str, object]


def _history(slug: str, site: SiteInput) -> object:
    found = site.earlier.get(slug), site.changed.get(slug), site.versions.get(slug)
    return None if found == _NO_HISTORY else found


_NO_HISTORY = (None, None, None)
"""That of most recipes where no history is kept: told as nothing, which has its digest already."""


def _beside(slug: str, site: SiteInput) -> object:
    return [one and (one.slug, one.glance.named) for one in site.beside.get(slug, ())]


def _leads(slug: str, site: SiteInput) -> object:
    one = site.by_slug.get(slug)
    return one and _shown(one.glance.led_to, site)


def _notes_lead(slug: str, site: SiteInput) -> object:
    one = site.by_slug.get(slug)
    return one and _shown(one.glance.notes_lead_to, site)


def _shown(slugs: Iterable[str], site: SiteInput) -> list[str]:
    return [slug for slug in slugs if slug in site.by_slug]


def _day_of(slug: str, site: SiteInput) -> object:
    one = site.by_slug.get(slug)
    return min(site.on, one.glance.cured) if one and one.glance.cured else None


def _pdfs(slug: str, site: SiteInput) -> object:
    return of_recipe(slug, site, ""), of_labels(slug, site, "")


_ABOUT_ONE: Mapping[str, Callable[[str, SiteInput], object]] = {
    rests_on.recipe(""): _of_recipe,
    rests_on.notes(""): _of_notes,
    rests_on.history(""): _history,
    rests_on.beside(""): _beside,
    rests_on.leads(""): _leads,
    rests_on.notes_lead(""): _notes_lead,
    rests_on.pdfs(""): _pdfs,
    rests_on.day_of(""): _day_of,
}
"""What is about one recipe, by the words before its slug."""


def _title(one: Published) -> tuple[object, ...]:
    return one.slug, one.glance.collection, one.glance.title, one.glance.named


def _texts(folder: Path) -> list[tuple[str, bytes]]:
    """Every file of a folder of templates, style sheets and scripts; no link leads out of it."""
    home = folder.resolve()
    return [
        (path.relative_to(folder).as_posix(), path.read_bytes())
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.resolve().is_relative_to(home)
    ]
