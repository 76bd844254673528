"""The one style sheet, named by its content."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.pages.kind import Desk, PageKind, Sheet


def _render(desk: Desk) -> Iterator[Sheet]:
    yield Sheet(desk.style, lambda: desk.style_sheet)


KIND = PageKind("style", _render)
