"""The page kinds, in the order their files are composed. A new one is a module and its line here."""

from __future__ import annotations

from saponary.outputs.page_kind import PageKind
from saponary.outputs.pages import (
    at_the_bench,
    calendar,
    colours,
    cure_shelf,
    figures,
    gallery,
    ingredients,
    lots,
    recipe,
    set_aside,
    sitemap,
    style,
    words,
)

KINDS: tuple[PageKind, ...] = (
    at_the_bench.KIND,
    calendar.KIND,
    colours.KIND,
    cure_shelf.KIND,
    figures.KIND,
    gallery.KIND,
    ingredients.KIND,
    lots.KIND,
    recipe.KIND,
    set_aside.KIND,
    sitemap.KIND,
    style.KIND,
    words.KIND,
)
