"""Recipe pages, each with its two drawings as files beside it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.gallery import in_order
from saponary.views.recipe import recipe_view
from saponary.views.site import RecipeInput


def _render(desk: Desk) -> Iterator[Sheet]:
    row = tuple(in_order(desk.recipes))
    for recipe in row:
        path = links.recipe_page(recipe.slug)
        yield Sheet(path, partial(_page, desk, recipe, row, path), recipe.slug)
        for when in ("fresh", "cured"):
            yield Sheet(links.drawing(recipe.slug, when), partial(_drawing, desk, recipe, when), recipe.slug)


def _page(desk: Desk, recipe: RecipeInput, row: tuple[RecipeInput, ...], path: str) -> bytes:
    view = recipe_view(recipe, desk.site, desk.drawings.of(recipe), row, desk.published)
    return desk.page("recipe.html", path, recipe=view)


def _drawing(desk: Desk, recipe: RecipeInput, when: str) -> bytes:
    drawn = desk.drawings.of(recipe)
    return (drawn.fresh_svg if when == "fresh" else drawn.cured_svg).encode("utf-8")


KIND = PageKind("recipe", _render)
