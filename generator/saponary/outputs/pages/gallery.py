"""The gallery: the first page of the book."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.gallery import gallery_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = gallery_view(desk.site, desk.recipes, desk.published)
        return desk.page("gallery.html", links.GALLERY, gallery=view)

    yield Sheet(links.GALLERY, write)


KIND = PageKind("gallery", _render)
