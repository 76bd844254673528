"""The colour shelf: every colourant, fresh and cured."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.colour_uses import Coloured, by_title, coloured
from saponary.views.colours import colours_view


def _render(context: PageContext) -> Iterator[SiteFile]:
    up = links.root(links.COLOURS)
    rows = context.rows.all(
        "colours",
        Coloured,
        by_title(context.recipes),
        rests_on.Rests((*rests_on.ROW.common, rests_on.PANTRY), rests_on.ROW.own),
        lambda one: coloured(one, context.site.book.pantry, up),
    )

    def write() -> bytes:
        view = colours_view(context.site, rows.found())
        return context.page("colours.html", links.COLOURS, colours=view)

    uses = (*rests_on.FRAME, rests_on.PANTRY, rests_on.TITLES, rests_on.LOTS, rows.name)
    yield SiteFile(links.COLOURS, write, uses)


KIND = PageKind("colours", _render, needs="work", nav=NavEntry(message("nav.colours"), links.COLOURS))
