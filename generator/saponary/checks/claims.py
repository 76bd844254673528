"""claims: a published sentence says that the soap does more than wash.

Every text that a page or sheet may show is read. Of a recipe: its title, summary, names of portions,
notes, steps, batch and photo notes, lots, the name of its file, and its notes, code included. Of the book:
what it says of itself, the names in the maker's pantry, the classes, and the maker's own templates.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.checks.listed import BOTH, EVERYWHERE
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, Place, Severity
from saponary.words.claim_hint import hint
from saponary.words.claim_texts import of_a_recipe, of_the_book_itself
from saponary.words.entries import WordList
from saponary.words.matching import Hit, find_in

MAX_FINDINGS = 100
"""Findings of one recipe; who has more begins with these."""

_LONGEST = 80


def check_book(context: ProofContext) -> Iterator[Finding]:
    """Claims in what the book says of itself, on no recipe's page."""
    yield from of_the_book(context.book, context.words)


def entries_in(computed: Computed, words: WordList) -> frozenset[str]:
    """Ids of the entries of a list that find anything in a recipe."""
    return frozenset(hit.entry.id for _, hit in _claims(computed, words))


def entries_in_the_book_itself(book: Book, words: WordList) -> frozenset[str]:
    """Ids of those that find anything in what the book says of itself."""
    return frozenset(hit.entry.id for _, hit in _said(book, words))


def of_recipe(computed: Computed, words: WordList) -> Iterator[Finding]:
    """Claims in what a recipe says."""
    for count, (place, hit) in enumerate(_claims(computed, words)):
        if count == MAX_FINDINGS:
            message = f"more than {MAX_FINDINGS} claims; the rest are not listed"
            yield Finding(RULE.name, "error", place, message, "correct those listed first")
            return
        yield _finding(place, hit, computed)


def _claims(computed: Computed, words: WordList) -> Iterator[tuple[Place, Hit]]:
    """Claims of a recipe; a name that only repeats what a text says is not told again."""
    language, said = computed.settings.language, set[str]()
    for text in of_a_recipe(computed):
        for hit in find_in(text.shown, language, words):
            if text.is_name and told(hit) in said:
                continue
            said.add(told(hit))
            yield text.at(hit.start), hit


def of_the_book(book: Book, words: WordList) -> Iterator[Finding]:
    """Claims in what the book says of itself, on no recipe's page."""
    for place, hit in _said(book, words):
        yield _finding(place, hit, None)


def _said(book: Book, words: WordList) -> Iterator[tuple[Place, Hit]]:
    for text in of_the_book_itself(book):
        for hit in islice(find_in(text.shown, book.settings.language, words), MAX_FINDINGS):
            yield text.at(hit.start), hit


def _finding(place: Place, hit: Hit, computed: Computed | None) -> Finding:
    severity: Severity = "error" if hit.entry.group == "drug" else "warning"
    return Finding(RULE.name, severity, place, _message(hit), hint(hit.entry.neutral, computed), told(hit))


def told(hit: Hit) -> str:
    """The words of a claim as a waiver names them."""
    words = " ".join(hit.words.casefold().split())
    return words if len(words) <= _LONGEST else f"{words[: _LONGEST - 1]}…"


def _message(hit: Hit) -> str:
    entry = hit.entry
    said = hit.words if len(hit.words) <= _LONGEST else hit.words[: _LONGEST - 1] + "…"
    why = "; ".join(f"{place}: {entry.why[key]}" for key, place in _JURISDICTIONS if key in entry.why)
    denial = "; denying it still names it" if hit.denied else ""
    return f"“{said}” is a {entry.group} claim{denial}" + (f" ({why})" if why else "")


_JURISDICTIONS = (("us", "US"), ("eu", "EU"), ("maker", "this book"))


RULE = Rule(
    "claims",
    "words",
    "A sentence that promises more than washing makes a soap a cosmetic or a drug in the United States."
    " In the European Union it needs evidence, or is not allowed. A person must judge each match; this "
    "is not legal advice.",
    words=of_recipe,
    book=check_book,
    kinds=BOTH,
    waivable=EVERYWHERE,
    each="phrase",
)
