"""The trade's terms as this book uses them."""

from __future__ import annotations

from typing import NamedTuple

from saponary.pantry.model import Pantry
from saponary.views import links


class Word(NamedTuple):
    id: str
    term: str
    meaning: str


def words(shelf: Pantry) -> tuple[Word, ...]:
    """By the alphabet."""
    terms = sorted(shelf.terms, key=lambda term: term.term.casefold())
    return tuple(Word(links.anchor(term.term), term.term, term.meaning) for term in terms)
