"""The icon of the site, in the colours of the newest recipe."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.mark import icon, newest


def _render(context: PageContext) -> Iterator[SiteFile]:
    recipe = newest(context.recipes)
    if recipe is None:
        return

    def write() -> bytes:
        return icon(recipe).encode("utf-8")

    uses = (rests_on.recipe(recipe.slug),)
    yield SiteFile(links.ICON, write, uses)


KIND = PageKind("icon", _render)
