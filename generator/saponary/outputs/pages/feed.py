"""The feed of a book (Atom, RFC 4287): recipes that changed, and lots that became ready. For a book that
knows its address, since a feed is read away from its site.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from html import escape
from urllib.parse import urlsplit

from saponary.book.published import Published
from saponary.messages.message import Value, message
from saponary.messages.speaker import Speaker, speaker
from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.prose import Prose
from saponary.views.readiness import clean_lots
from saponary.views.site import SiteInput

MOST = 50
"""Entries, the latest first."""


@dataclass(frozen=True)
class Entry:
    """One entry: what tells it from all others, its day, title and text, and the page it is about."""

    id: str
    on: date
    title: Value
    about: str
    path: str


def entries(site: SiteInput) -> list[Entry]:
    """The latest first; of one day, by their ids."""
    found = [*_changed(site), *(_ready(site) if site.shows("batches") else ())]
    return sorted(found, key=lambda entry: (-entry.on.toordinal(), entry.id))[:MOST]


def _changed(site: SiteInput) -> Iterator[Entry]:
    for recipe in site.recipes:
        changed = site.changed.get(recipe.slug)
        if changed is not None:
            title = Prose(recipe.catalogue).title(recipe.model.title)
            yield Entry(recipe.slug, changed.on, title, _summary(recipe), links.recipe_page(recipe.slug))


def _ready(site: SiteInput) -> Iterator[Entry]:
    for lot in clean_lots(site.recipes):
        found = lot.readiness
        if found.on <= site.on:
            title = message("calendar.summary", state=found.head, recipe=lot.title, lot=lot.batch.lot)
            path = f"{links.recipe_page(lot.recipe.slug)}"
            yield Entry(f"{lot.recipe.slug}/{lot.batch.lot}", found.on, title, _summary(lot.recipe), path)


def _summary(recipe: Published) -> str:
    return Prose(recipe.catalogue).plain(recipe.model.summary)


def atom(site: SiteInput, base: str, say: Speaker) -> bytes:
    """The feed's bytes. Ids are tags (RFC 4151) of the site's own name, and stay if it moves within it."""
    settings, found = site.book.settings, entries(site)
    host = urlsplit(base).hostname or "book"
    updated = max((entry.on for entry in found), default=date(2000, 1, 1))
    rows = "".join(
        " <entry>\n"
        f"  <id>tag:{host},2000:{escape(entry.id)}</id>\n"
        f"  <title>{escape(say.say(entry.title))}</title>\n"
        f'  <link rel="alternate" type="text/html" href="{escape(f"{base}/{entry.path}")}"/>\n'
        f"  <updated>{entry.on.isoformat()}T00:00:00Z</updated>\n"
        + (f"  <summary>{escape(entry.about)}</summary>\n" if entry.about else "")
        + " </entry>\n"
        for entry in found
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="{escape(settings.language)}">\n'
        f" <id>tag:{host},2000:book</id>\n"
        f" <title>{escape(settings.title)}</title>\n"
        f" <author><name>{escape(settings.maker or settings.title)}</name></author>\n"
        f' <link rel="self" type="application/atom+xml" href="{escape(base)}/{links.FEED}"/>\n'
        f' <link rel="alternate" type="text/html" href="{escape(base)}/{links.GALLERY}"/>\n'
        f" <updated>{updated.isoformat()}T00:00:00Z</updated>\n"
        f"{rows}</feed>\n"
    ).encode()


def _render(context: PageContext) -> Iterator[SiteFile]:
    site = context.site
    base = context.top.removesuffix("/")
    if not base or not site.edition.is_public:
        return

    def write() -> bytes:
        return atom(site, base, speaker(site.book.settings.language, site.book.settings.units))

    histories = (rests_on.history(recipe.slug) for recipe in context.recipes)
    uses = (rests_on.SETTINGS, rests_on.EDITION, rests_on.DAY, *rests_on.recipes(context.recipes), *histories)
    yield SiteFile(links.FEED, write, uses)


KIND = PageKind("feed", _render)
