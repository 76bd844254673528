"""The feed of a book (Atom, RFC 4287): recipes that changed, and lots that became ready. For a book that
knows its address, since a feed is read away from its site.
"""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.published import Published
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.atom import Entry, Feed, atom
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.prose import Prose
from saponary.views.readiness import clean_lots
from saponary.views.site import SiteInput

MOST = 50
"""Entries, the latest first."""


def entries(site: SiteInput, base: str) -> list[Entry]:
    """The latest first; of one day, by their ids."""
    found = [*_changed(site, base), *(_ready(site, base) if site.shows("batches") else ())]
    return sorted(found, key=lambda entry: (-entry.on.toordinal(), entry.id))[:MOST]


def _changed(site: SiteInput, base: str) -> Iterator[Entry]:
    for recipe in site.recipes:
        changed = site.changed.get(recipe.slug)
        if changed is not None:
            title = Prose(recipe.catalogue).title(recipe.model.title)
            href = f"{base}/{links.recipe_page(recipe.slug)}"
            yield Entry(recipe.slug, changed.on, title, _summary(recipe), href)


def _ready(site: SiteInput, base: str) -> Iterator[Entry]:
    for lot in clean_lots(site.recipes):
        found = lot.readiness
        if found.on <= site.on:
            title = message("calendar.summary", state=found.head, recipe=lot.title, lot=lot.batch.lot)
            href = f"{base}/{links.recipe_page(lot.recipe.slug)}"
            yield Entry(f"{lot.recipe.slug}/{lot.batch.lot}", found.on, title, _summary(lot.recipe), href)


def _summary(recipe: Published) -> str:
    return Prose(recipe.catalogue).plain(recipe.model.summary)


def _feed(site: SiteInput, base: str) -> bytes:
    """The book's feed, for the address of its site."""
    settings = site.book.settings
    own, page = f"{base}/{links.FEED}", f"{base}/{links.GALLERY}"
    return atom(Feed("book", settings.title, own, page, entries(site, base)), settings)


def _render(context: PageContext) -> Iterator[SiteFile]:
    site = context.site
    base = context.top.removesuffix("/")
    if not base or not site.edition.is_public:
        return

    def write() -> bytes:
        return _feed(site, base)

    histories = (rests_on.history(recipe.slug) for recipe in context.recipes)
    uses = (rests_on.SETTINGS, rests_on.EDITION, rests_on.DAY, *rests_on.recipes(context.recipes), *histories)
    yield SiteFile(links.FEED, write, uses)


KIND = PageKind("feed", _render)
