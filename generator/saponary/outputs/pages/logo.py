"""The book's logo, made anew of its shapes."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links


def _render(context: PageContext) -> Iterator[SiteFile]:
    logo = context.site.book.logo
    if logo is not None:
        yield SiteFile(links.LOGO, lambda: f"{logo.svg}\n".encode(), (rests_on.LOGO,))


KIND = PageKind("logo", _render)
