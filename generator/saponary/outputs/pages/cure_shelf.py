"""The cure shelf: what is curing, and what is ready when."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.cure_shelf import ShelfLine, cure_shelf_view, shelf_lines
from saponary.views.readiness import newest_first


def _render(context: PageContext) -> Iterator[SiteFile]:
    up = links.root(links.CURE_SHELF)
    rows = context.rows.all(
        "cure-shelf",
        ShelfLine,
        context.recipes,
        rests_on.DATED_ROW,
        lambda one: shelf_lines(one, context.site, up),
    )

    def write() -> bytes:
        view = cure_shelf_view(context.site, newest_first(rows.found()), up)
        return context.page("cure-shelf.html", links.CURE_SHELF, shelf=view)

    uses = (*rests_on.FRAME, rests_on.DAY, rests_on.TITLES, rests_on.LOTS, rows.name)
    yield SiteFile(links.CURE_SHELF, write, uses)


KIND = PageKind(
    "cure-shelf", _render, needs="batches", nav=NavEntry(message("nav.cure-shelf"), links.CURE_SHELF)
)
