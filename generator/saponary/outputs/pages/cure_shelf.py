"""The cure shelf: what is curing, and what is ready when."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.cure_shelf import cure_shelf_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = cure_shelf_view(desk.site, desk.recipes, links.root(links.CURE_SHELF))
        return desk.page("cure-shelf.html", links.CURE_SHELF, shelf=view)

    yield Sheet(links.CURE_SHELF, write)


KIND = PageKind("cure-shelf", _render, needs="batches")
