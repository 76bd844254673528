"""A soap's page in a shop, with its two drawings as files beside it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.book.published import Published
from saponary.outputs import rests_on
from saponary.outputs.page_kind import CUSTOMERS, PageContext, PageKind, SiteFile
from saponary.outputs.pages.card import card
from saponary.outputs.pages.recipe import drawing_files
from saponary.outputs.structured import picture, product
from saponary.views import links
from saponary.views.neighbours import neighbours
from saponary.views.shop import shop_page


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    path = links.recipe_page(recipe.slug)
    drawn = (rests_on.recipe(recipe.slug), *rests_on.scraps(recipe))
    uses = (*rests_on.FRAME, *rests_on.others(recipe.slug), *drawn)
    yield SiteFile(path, partial(_page, context, recipe, path), uses, recipe.slug)
    yield from drawing_files(context, recipe)


def _page(context: PageContext, recipe: Published, path: str) -> bytes:
    up = links.root(path)
    view = shop_page(recipe, context.site, context.drawings.of(recipe), up)
    shown = picture(view.photo, context.top, path)
    told = product(view, recipe, shown, context.site.book.settings.currency or "")
    beside = neighbours(context.site.beside[recipe.slug], up)
    passed_on = card(context, recipe.slug, view.title, view.photo)
    return context.page("shop-page.html", path, soap=view, beside=beside, picture=passed_on, structured=told)


KIND = PageKind("shop-page", each=_each, readers=CUSTOMERS)
