"""The page of waivers: every rule that was waived, with its written reason, for the maker."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.prose_marks import typographic


class FileWaivers(NamedTuple):
    """One file's waivers: its name as shown, its page if it has one, and pairs of a rule and why."""

    name: str
    href: str
    rows: tuple[tuple[str, str], ...]


def by_file(context: PageContext) -> tuple[FileWaivers, ...]:
    """Recipes in the book's order, then the other files by name."""
    up = links.root(links.WAIVERS)
    rows: dict[str, list[tuple[str, str]]] = {}
    for waiver in context.site.book.waived:
        rows.setdefault(waiver.place.file, []).append((waiver.name, waiver.because))
    found: list[FileWaivers] = []
    for recipe in context.site.in_order:
        if recipe.path in rows:
            title = typographic(recipe.glance.named)
            href = up + links.recipe_page(recipe.slug)
            found.append(FileWaivers(title, href, tuple(rows.pop(recipe.path))))
    return (*found, *(FileWaivers(file, "", tuple(rows[file])) for file in sorted(rows)))


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        return context.page("waivers.html", links.WAIVERS, files=by_file(context))

    uses = (*rests_on.FRAME, rests_on.WAIVERS, rests_on.TITLES)
    yield SiteFile(links.WAIVERS, write, uses)


KIND = PageKind("waivers", _render, needs="waivers", nav=NavEntry(message("nav.waivers"), links.WAIVERS))
