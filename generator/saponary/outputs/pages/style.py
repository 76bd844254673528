"""The one style sheet, named by its content."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet


def _render(desk: Desk) -> Iterator[Sheet]:
    yield Sheet(desk.style, lambda: desk.style_sheet)


KIND = PageKind("style", _render)
