"""The page of words: the trade's terms as this book uses them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saponary.pages import links
from saponary.pages.kind import Desk, PageKind, Sheet
from saponary.pantry.model import Pantry


@dataclass(frozen=True)
class Word:
    id: str
    term: str
    meaning: str


def words(shelf: Pantry) -> tuple[Word, ...]:
    """By the alphabet."""
    terms = sorted(shelf.terms, key=lambda term: term.term.casefold())
    return tuple(Word(links.anchor(term.term), term.term, term.meaning) for term in terms)


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        return desk.page("words.html", links.WORDS, words=words(desk.site.book.pantry))

    yield Sheet(links.WORDS, write)


KIND = PageKind("words", _render)
