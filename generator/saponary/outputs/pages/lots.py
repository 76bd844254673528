"""The page of lots: every batch of the book, the newest first."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.lots import lots_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        return desk.page(
            "lots.html", links.LOTS, lots=lots_view(desk.site, desk.recipes, links.root(links.LOTS))
        )

    yield Sheet(links.LOTS, write)


KIND = PageKind("lots", _render, needs="batches")
