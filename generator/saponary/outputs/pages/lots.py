"""The page of lots, a page for each year where they are many, and one for every lot."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from saponary.book.published import Published
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import CUSTOMERS, PageContext, PageKind, SiteFile
from saponary.outputs.rows import RowsOf
from saponary.views import links
from saponary.views.lot_page import LotPage, lot_page, sold_lot, sold_lots
from saponary.views.lot_rows import LotLine, lines
from saponary.views.lots import lots_of_year, lots_view, years_of
from saponary.views.readiness import lots_of, newest_first


def _render(context: PageContext) -> Iterator[SiteFile]:
    rows = _lines(context, links.root(links.LOTS))
    uses = (*rests_on.FRAME, rests_on.DAY, rests_on.TITLES, rests_on.LOTS, rows.name)
    yield SiteFile(links.LOTS, partial(_all, context, rows), uses)
    for year in sorted(years_of(context.recipes), reverse=True):
        yield SiteFile(links.lots_of_year(year), partial(_year, context, rows, year), uses)


def _all(context: PageContext, rows: RowsOf[LotLine]) -> bytes:
    view = lots_view(context.site, newest_first(rows.found()), links.root(links.LOTS))
    return context.page("lots.html", links.LOTS, lots=view)


def _year(context: PageContext, rows: RowsOf[LotLine], year: int) -> bytes:
    view = lots_of_year(context.site, newest_first(rows.found()), year)
    return context.page("lots.html", links.lots_of_year(year), lots=view)


def _lines(context: PageContext, up: str) -> RowsOf[LotLine]:
    """Every lot. The pages of years lie beside that of all."""
    return context.rows.all(
        f"lots {up}",
        LotLine,
        context.recipes,
        rests_on.DATED_ROW,
        lambda one: lines(one, context.site, up),
    )


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    own = (rests_on.recipe(recipe.slug), rests_on.history(recipe.slug))
    uses = (*rests_on.FRAME, rests_on.leads(recipe.slug), *own)
    for at, name in enumerate(links.free_names(lot for lot, _ in recipe.glance.lots)):
        path = links.lot(recipe.slug, name)
        view = partial(_own, context, recipe, at)
        yield SiteFile(path, partial(_lot, context, path, view), uses, recipe.slug)


def _own(context: PageContext, recipe: Published, at: int) -> LotPage:
    lot = lots_of(recipe)[at]
    return lot_page(lot, context.site, links.root(lot.path))


def _sold(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    uses = (*rests_on.FRAME, rests_on.recipe(recipe.slug))
    for at, name in enumerate(links.free_names(recipe.glance.sold)):
        path = links.lot(recipe.slug, name)
        view = partial(_for_sale, context, recipe, at)
        yield SiteFile(path, partial(_lot, context, path, view), uses, recipe.slug)


def _for_sale(context: PageContext, recipe: Published, at: int) -> LotPage:
    path, sold = sold_lots(recipe)[at]
    return sold_lot(recipe, sold, context.site, links.root(path))


def _lot(context: PageContext, path: str, view: Callable[[], LotPage]) -> bytes:
    base = "shop-base.html" if context.site.edition.reader in CUSTOMERS else "base.html"
    return context.page("lot.html", path, lot=view(), base=base)


KIND = PageKind("lots", _render, needs="batches", nav=NavEntry(message("nav.lots"), links.LOTS))
EACH = PageKind("lot", each=_each, needs="batches")
SOLD = PageKind("sold-lot", each=_sold, needs="shop", readers=CUSTOMERS)
"""In a shop: the lots that are for sale, and no other."""
