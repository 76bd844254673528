"""The pages of the book's own, each in the menu."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.prose import Prose, first_sentence
from saponary.views.site import PublishedPage, SiteInput


def _render(context: PageContext) -> Iterator[SiteFile]:
    uses = (*rests_on.FRAME, rests_on.PAGES, rests_on.TITLES)
    for page in context.site.book.pages:
        path = links.own_page(page.slug)
        yield SiteFile(path, partial(_page, context, page, path), uses)


def _page(context: PageContext, page: PublishedPage, path: str) -> bytes:
    photos = {name: context.site.photos[name] for name in page.pictures if name in context.site.photos}
    prose = Prose({}, context.links(path, "pages"), photos)
    return context.page(
        "own-page.html",
        path,
        title=prose.title(page.title),
        description=_description(prose, page),
        body=prose.block(page.body, top=2),
        shop=context.site.edition.reader == "customer",
    )


def _description(prose: Prose, page: PublishedPage) -> str:
    """The first sentence of its first paragraph; its title where it begins otherwise."""
    first = page.body.strip().partition("\n\n")[0]
    return first_sentence(prose.plain(first)) if first[:1].isalnum() else page.title


def _ways(site: SiteInput) -> tuple[NavEntry, ...]:
    return tuple(NavEntry(page.menu, links.own_page(page.slug)) for page in site.book.pages)


KIND = PageKind("own-page", _render, ways=_ways)
