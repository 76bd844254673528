"""What lye is, what to mind with it, and how a bar is tested: a page of its own, for who only buys a soap too."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links


def _render(context: PageContext) -> Iterator[SiteFile]:
    yield SiteFile(links.LYE, lambda: context.page("lye.html", links.LYE), rests_on.FRAME)


KIND = PageKind("lye", _render)
