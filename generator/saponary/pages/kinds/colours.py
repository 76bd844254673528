"""The colour shelf: every colourant, fresh and cured."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.pages import links
from saponary.pages.kind import Desk, PageKind, Sheet
from saponary.pages.views.colours import colours_view


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = colours_view(desk.site, desk.recipes, links.root(links.COLOURS))
        return desk.page("colours.html", links.COLOURS, colours=view)

    yield Sheet(links.COLOURS, write)


KIND = PageKind("colours", _render, needs="work")
