"""The colour shelf: every colourant, fresh and cured."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.colours import colours_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = colours_view(desk.site, desk.recipes, links.root(links.COLOURS))
        return desk.page("colours.html", links.COLOURS, colours=view)

    yield Sheet(links.COLOURS, write)


KIND = PageKind("colours", _render, needs="work")
