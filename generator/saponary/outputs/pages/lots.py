"""The page of lots: every batch of the book, the newest first."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.lots import lots_view


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        return context.page(
            "lots.html", links.LOTS, lots=lots_view(context.site, context.recipes, links.root(links.LOTS))
        )

    every = rests_on.recipes(context.recipes)
    earlier = (rests_on.history(recipe.slug) for recipe in context.recipes)
    yield SiteFile(links.LOTS, write, (*rests_on.FRAME, rests_on.DAY, *every, *earlier))


KIND = PageKind("lots", _render, needs="batches", nav=NavEntry(message("nav.lots"), links.LOTS))
