"""The gallery: the first page of the book."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.pages import links
from saponary.pages.kind import Desk, PageKind, Sheet
from saponary.pages.views.gallery import gallery_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = gallery_view(desk.site, desk.recipes, desk.published)
        return desk.page("gallery.html", links.GALLERY, gallery=view)

    yield Sheet(links.GALLERY, write)


KIND = PageKind("gallery", _render)
