"""The page of ingredients: what each recipe takes from the shelf."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.pantry import Taken, shelves, taken


def _render(context: PageContext) -> Iterator[SiteFile]:
    rows = context.rows.all("ingredients", Taken, context.site.in_order, rests_on.ROW, taken)

    def write() -> bytes:
        view = shelves(context.site.book.pantry, rows.found())
        return context.page("ingredients.html", links.INGREDIENTS, shelves=view)

    uses = (*rests_on.FRAME, rests_on.PANTRY, rests_on.TITLES, rows.name)
    yield SiteFile(links.INGREDIENTS, write, uses)


KIND = PageKind(
    "ingredients", _render, needs="work", nav=NavEntry(message("nav.ingredients"), links.INGREDIENTS)
)
