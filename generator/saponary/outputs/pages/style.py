"""The one style sheet, named by its content."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile


def _render(context: PageContext) -> Iterator[SiteFile]:
    yield SiteFile(context.style, lambda: context.style_sheet, (rests_on.TEMPLATES, rests_on.SETTINGS))


KIND = PageKind("style", _render)
