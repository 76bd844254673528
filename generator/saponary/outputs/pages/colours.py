"""The colour shelf: every colourant, fresh and cured."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.colours import colours_view


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        view = colours_view(context.site, context.recipes, links.root(links.COLOURS))
        return context.page("colours.html", links.COLOURS, colours=view)

    uses = (*rests_on.FRAME, rests_on.PANTRY, *rests_on.recipes(context.recipes))
    yield SiteFile(links.COLOURS, write, uses)


KIND = PageKind("colours", _render, needs="work", nav=NavEntry(message("nav.colours"), links.COLOURS))
