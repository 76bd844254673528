"""Every recipe's figures as one JSON file, for programs."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.figures_json import figures_json
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile


def _render(context: PageContext) -> Iterator[SiteFile]:
    uses = (
        rests_on.SETTINGS,
        rests_on.EDITION,
        rests_on.VERSIONS,
        *rests_on.recipes(context.site.recipes),
    )
    yield SiteFile("figures.json", lambda: figures_json(context.site, context.rows).encode("utf-8"), uses)


KIND = PageKind("figures", _render)
