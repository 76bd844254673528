"""The page of words: the trade's terms as this book uses them."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.glossary import words


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        return desk.page("words.html", links.WORDS, words=words(desk.site.book.pantry))

    yield Sheet(links.WORDS, write)


KIND = PageKind("words", _render)
