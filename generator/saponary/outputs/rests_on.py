"""What the files of a site rest on: the names by which they say so, and the values under those names.

A file states every value that its bytes depend on. Where all of them are as they were, and the
code too, so are its bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import fields
from pathlib import Path
from typing import NamedTuple, cast

from saponary.assets.digest import digest
from saponary.assets.once import made_once
from saponary.book.published import Published
from saponary.pantry.model import Pantry
from saponary.views.printed import of_labels, of_recipe
from saponary.views.site import SiteInput

SETTINGS = "settings"
EDITION = "edition"
TEMPLATES = "templates"
NAVIGATION = "navigation"
VERSIONS = "versions"
"""Of the engine, and of the standard tables."""
PANTRY = "pantry"
DAY = "day"
"""The day that the site speaks of."""
TITLES = "titles"
"""Which recipes are published, in their order, and what each is called."""
LOTS = "lots"
"""Which lots are shown, the day of each, and whether any of a recipe is not held back."""
WAIVERS = "waivers"
CLASSES = "classes"
LOGO = "logo"
PAGES = "pages"
"""The pages of the book's own, with their photos."""
PDFS = "pdfs"
"""Which PDFs lie beside the pages."""

FRAME = (SETTINGS, EDITION, TEMPLATES, NAVIGATION, VERSIONS, LOGO)
"""What stands round every page."""

_RECIPE, _NOTES, _HISTORY = "recipe ", "notes ", "history "
_BESIDE, _LEADS, _NOTES_LEAD, _PDFS_OF = "beside ", "leads ", "leads-of-notes ", "pdfs "
_ROWS = "rows "
PART = "part "
"""What stands before the name of rows, and a number, where a file says what is in a part of each."""
PICKED = "picked "
"""What stands before the name of rows where a page shows more of a few recipes than their rows say."""
_OF_NOTES = ("notes", "quotes", "pictures")
"""Fields of a recipe that its own page alone shows."""


def recipe(slug: str) -> str:
    """One recipe as it is published, with its photos and its ingredient list, but for settings and notes."""
    return f"{_RECIPE}{slug}"


def notes(slug: str) -> str:
    """The text below a recipe's front matter, the figures that are quoted in it, and the photos that it shows."""
    return f"{_NOTES}{slug}"


def history(slug: str) -> str:
    """What is known of a recipe's earlier formulas and versions, and when it last changed."""
    return f"{_HISTORY}{slug}"


def beside(slug: str) -> str:
    """The recipes before and after one, and what each is called."""
    return f"{_BESIDE}{slug}"


def leads(slug: str) -> str:
    """Which of the recipes that its texts lead to, but for its notes, are published."""
    return f"{_LEADS}{slug}"


def notes_lead(slug: str) -> str:
    """Which of the recipes that its notes lead to are published."""
    return f"{_NOTES_LEAD}{slug}"


def others(slug: str) -> tuple[str, ...]:
    """What the page of one recipe says of other recipes."""
    return beside(slug), leads(slug), notes_lead(slug)


def pdfs(slug: str) -> str:
    """Which PDFs about one recipe lie beside the pages."""
    return f"{_PDFS_OF}{slug}"


def of_others(slug: str) -> tuple[str, ...]:
    """All that is said of a recipe and is of no recipe's own: it follows from `OF_OTHERS`, and from the recipe."""
    return (*others(slug), pdfs(slug))


def rows(kind: str) -> str:
    """What a page of the whole book says of each recipe (`outputs/rows.py`)."""
    return f"{_ROWS}{kind}"


def picked(rows: str) -> str:
    """The few recipes of which a page of the whole book shows more than its rows say."""
    return f"{PICKED}{rows}"


def part(number: int, rows: str) -> str:
    """A part of each row, where the rows of a page are spread over several files."""
    return f"{PART}{number} of {rows}"


def slug_of(name: str) -> str | None:
    """The recipe that a name is about; None where it is about the whole book."""
    kind, _, slug = name.partition(" ")
    return slug if f"{kind} " in (_RECIPE, _NOTES, _HISTORY, *_OTHERS) else None


def is_of_recipe(name: str) -> bool:
    """Whether a recipe has to be published for the value under a name."""
    return name.startswith((_RECIPE, _NOTES))


def recipes(published: Iterable[Published]) -> tuple[str, ...]:
    """Each of these recipes, and their order."""
    return (TITLES, *(recipe(one.slug) for one in published))


class Rests(NamedTuple):
    """What the rows of a page rest on: names that all have in common, and by its slug those of each."""

    common: tuple[str, ...]
    own: Callable[[str], Iterable[str]]


def _alone(slug: str) -> tuple[str, ...]:
    return (f"{_RECIPE}{slug}",)


ROW = Rests((SETTINGS, EDITION, VERSIONS), _alone)
"""What is said of one recipe on a page of the whole book."""


def _with_history(slug: str) -> tuple[str, ...]:
    return recipe(slug), history(slug)


ROW_OF_CHANGES = Rests(ROW.common, _with_history)
"""What is said of one recipe and of its history."""
DATED_ROW_OF_CHANGES = Rests((*ROW.common, DAY), _with_history)
"""The same on a day."""
DATED_ROW = Rests((*ROW.common, DAY), _alone)
"""What is said of one recipe on a day."""


def taught(site: SiteInput) -> tuple[str, ...]:
    """What a recipe's page rests on where it is at the size of a class: its lesson, and its moulds."""
    return (CLASSES, PANTRY, TITLES, PDFS) if site.edition.reader == "student" else ()


def scraps(shown: Published) -> tuple[str, ...]:
    """The recipes whose scrap is shown in the drawing of this one."""
    return tuple(recipe(slug) for slug in shown.glance.scraps)


def value(name: str, site: SiteInput, templates: Sequence[Path], navigation: object) -> object:
    """What is under a name, made of plain data. Raises KeyError for a name that is none of these."""
    if name.startswith(_RECIPE):
        return _of_recipe(name.removeprefix(_RECIPE), site)
    if name.startswith(_NOTES):
        return _of_notes(site.by_slug.get(name.removeprefix(_NOTES)), site)
    if name.startswith(_HISTORY):
        slug = name.removeprefix(_HISTORY)
        return site.earlier.get(slug), site.changed.get(slug), site.versions.get(slug)
    kind, _, slug = name.partition(" ")
    if f"{kind} " in _OTHERS:
        return _OTHERS[f"{kind} "](slug, site)
    common: dict[str, Callable[[], object]] = {
        SETTINGS: lambda: site.book.settings,
        EDITION: lambda: site.edition,
        TEMPLATES: lambda: [_texts(folder) for folder in templates],
        NAVIGATION: lambda: navigation,
        VERSIONS: lambda: (site.engine, site.tables),
        PANTRY: lambda: site.book.own_pantry,
        DAY: lambda: site.on,
        TITLES: lambda: [_title(one) for one in site.in_order],
        LOTS: lambda: [(one.slug, one.glance.lots, one.glance.free) for one in site.recipes],
        CLASSES: lambda: [(read.slug, read.body, read.plan) for read in site.book.classes],
        LOGO: lambda: site.book.logo,
        PAGES: lambda: _pages(site),
        PDFS: lambda: sorted(site.pdfs),
        WAIVERS: lambda: site.book.waived,
    }
    return common[name]()


def _pages(site: SiteInput) -> object:
    pages = site.book.pages
    return pages, [site.photos.get(name) for page in pages for name in page.pictures]


def _of_notes(one: Published | None, site: SiteInput) -> object:
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


def _pdfs(slug: str, site: SiteInput) -> object:
    return of_recipe(slug, site, ""), of_labels(slug, site, "")


OF_OTHERS = (TITLES, PDFS, SETTINGS, EDITION)
"""What all of these follow from, besides the recipe itself."""

_OTHERS: Mapping[str, Callable[[str, SiteInput], object]] = {
    _BESIDE: _beside,
    _LEADS: _leads,
    _NOTES_LEAD: _notes_lead,
    _PDFS_OF: _pdfs,
}
"""What is said of a recipe that is of no recipe's own, by the word before its slug."""


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
