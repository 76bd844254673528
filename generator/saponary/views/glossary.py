"""The trade's terms as this book uses them."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.pantry.model import Pantry
from saponary.views import links


@dataclass(frozen=True)
class Word:
    id: str
    term: str
    meaning: str


def words(shelf: Pantry) -> tuple[Word, ...]:
    """By the alphabet."""
    terms = sorted(shelf.terms, key=lambda term: term.term.casefold())
    return tuple(Word(links.anchor(term.term), term.term, term.meaning) for term in terms)
