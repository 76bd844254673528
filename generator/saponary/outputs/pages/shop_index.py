"""The first page of a shop: every soap with its photo, and what it may be chosen by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import CUSTOMERS, PageContext, PageKind, SiteFile
from saponary.outputs.pages import choosing
from saponary.outputs.swatched import Swatched
from saponary.views import links
from saponary.views.shop import ShopRow, in_shop_order, shop_choices, shop_index, shop_row


def _render(context: PageContext) -> Iterator[SiteFile]:
    rows = context.rows.all(
        "shop",
        ShopRow,
        context.site.in_order,
        rests_on.ROW,
        lambda one: (shop_row(one, context.site),),
    )
    swatched = Swatched(context, rows, lambda found: shop_choices(in_shop_order(found)))

    def write() -> bytes:
        found = rows.found()
        view = shop_index(context.site, in_shop_order(found))
        view = replace(view, choices=swatched.on(found))
        return context.page("shop-index.html", links.GALLERY, shop=view, script=context.script(choosing.NAME))

    uses = (*rests_on.FRAME, rests_on.TITLES, rows.name, swatched.name())
    yield SiteFile(links.GALLERY, write, uses)


KIND = PageKind("shop-index", _render, readers=CUSTOMERS, nav=NavEntry(message("nav.soaps"), links.GALLERY))
