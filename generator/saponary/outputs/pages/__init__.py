"""The page kinds, in the order of the navigation. A new one is a module and its line here."""

from __future__ import annotations

from saponary.outputs.page_kind import PageKind
from saponary.outputs.pages import (
    at_the_bench,
    calendar,
    colours,
    costs,
    cure_shelf,
    figures,
    gallery,
    glossary,
    history,
    ingredients,
    lots,
    recipe,
    sitemap,
    style,
    waivers,
)

KINDS: tuple[PageKind, ...] = (
    gallery.KIND,
    recipe.KIND,
    at_the_bench.KIND,
    ingredients.KIND,
    colours.KIND,
    lots.KIND,
    cure_shelf.KIND,
    calendar.KIND,
    glossary.KIND,
    history.KIND,
    waivers.KIND,
    costs.KIND,
    figures.KIND,
    sitemap.KIND,
    style.KIND,
)
