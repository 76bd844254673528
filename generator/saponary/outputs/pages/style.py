"""The one style sheet, named by its content."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import PageContext, PageKind, SiteFile


def _render(context: PageContext) -> Iterator[SiteFile]:
    yield SiteFile(context.style, lambda: context.style_sheet)


KIND = PageKind("style", _render)
