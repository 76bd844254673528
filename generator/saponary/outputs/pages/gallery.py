"""The gallery: the first page of the book."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.gallery import gallery_view


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        view = gallery_view(context.site, context.recipes, context.published)
        return context.page("gallery.html", links.GALLERY, gallery=view)

    yield SiteFile(links.GALLERY, write, (*rests_on.FRAME, *rests_on.recipes(context.recipes)))


KIND = PageKind("gallery", _render, nav=NavEntry(message("nav.gallery"), links.GALLERY))
