"""The page of ingredients: what each recipe takes from the shelf."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.gallery import in_order
from saponary.views.pantry import shelves


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        view = shelves(desk.site.book.pantry, in_order(desk.recipes))
        return desk.page("ingredients.html", links.INGREDIENTS, shelves=view)

    yield Sheet(links.INGREDIENTS, write)


KIND = PageKind("ingredients", _render, needs="work")
