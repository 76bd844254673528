"""Every recipe's figures as one JSON file, for programs."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.figures_json import figures_json
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile


def _render(context: PageContext) -> Iterator[SiteFile]:
    yield SiteFile("figures.json", lambda: figures_json(context.site).encode("utf-8"))


KIND = PageKind("figures", _render)
