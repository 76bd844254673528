"""The feed of a book (Atom, RFC 4287): recipes that changed, and lots that became ready. For a book that
knows its address, since a feed is read away from its site.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from saponary.book.published import Published
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.atom import Entry, Feed, atom
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.rows import RowsOf
from saponary.views import links
from saponary.views.prose import Prose
from saponary.views.readiness import lots_of
from saponary.views.site import SiteInput

MOST = 50
"""Entries, the latest first."""


def entries(recipe: Published, site: SiteInput, base: str) -> Iterator[Entry]:
    """That a recipe changed, and which of its lots are ready."""
    href, about = f"{base}/{links.recipe_page(recipe.slug)}", _summary(recipe)
    changed = site.changed.get(recipe.slug)
    if changed is not None:
        title = Prose(recipe.catalogue).title(recipe.model.title)
        yield Entry(recipe.slug, changed.on, title, about, href)
    for lot in lots_of(recipe) if site.shows("batches") else ():
        # No lot is called ready unless a test found it free of alkali.
        found = lot.readiness
        if lot.standing.ready and found.on <= site.on:
            words = message("calendar.summary", state=found.head, recipe=lot.title, lot=lot.batch.lot)
            yield Entry(f"{recipe.slug}/{lot.batch.lot}", found.on, words, about, href)


def latest(found: Iterable[Entry]) -> list[Entry]:
    """The latest first; of one day, by their ids."""
    return sorted(found, key=lambda entry: (-entry.on.toordinal(), entry.id))[:MOST]


def _summary(recipe: Published) -> str:
    return Prose(recipe.catalogue).plain(recipe.model.summary)


def _feed(context: PageContext, base: str, rows: RowsOf[Entry]) -> bytes:
    """The book's feed, for the address of its site."""
    settings = context.site.book.settings
    own, page = f"{base}/{links.FEED}", f"{base}/{links.GALLERY}"
    return atom(Feed("book", settings.title, own, page, latest(rows.found())), settings)


def _render(context: PageContext) -> Iterator[SiteFile]:
    site = context.site
    base = context.top.removesuffix("/")
    if not base or not site.edition.is_public:
        return

    rows = context.rows.all(
        "feed",
        Entry,
        context.recipes,
        rests_on.DATED_ROW_OF_CHANGES,
        lambda one: entries(one, site, base),
    )
    uses = (rests_on.SETTINGS, rests_on.EDITION, rows.name)
    yield SiteFile(links.FEED, partial(_feed, context, base, rows), uses)


KIND = PageKind("feed", _render)
