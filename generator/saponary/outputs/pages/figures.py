"""Every recipe's figures as one JSON file, for programs."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet


def _render(desk: Desk) -> Iterator[Sheet]:
    yield Sheet("figures.json", lambda: desk.site.figures_json.encode("utf-8"))


KIND = PageKind("figures", _render)
