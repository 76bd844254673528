"""The page of costs: what the materials of every recipe cost, for the maker."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.costs import CostRow, cost_rows, costs_view


def _render(context: PageContext) -> Iterator[SiteFile]:
    up = links.root(links.COSTS)
    rows = context.rows.all(
        "costs", CostRow, context.site.in_order, rests_on.ROW, lambda one: cost_rows(one, up)
    )

    def write() -> bytes:
        view = costs_view(rows.found(), context.site.book.settings)
        return context.page("costs.html", links.COSTS, costs=view)

    uses = (*rests_on.FRAME, rests_on.TITLES, rows.name)
    yield SiteFile(links.COSTS, write, uses)


KIND = PageKind("costs", _render, needs="costs", nav=NavEntry(message("nav.costs"), links.COSTS))
