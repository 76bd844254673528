"""claims: a published sentence says that the soap does more than wash.

Every text that a page or sheet may show is read. Of a recipe: its title, summary, names of portions,
notes, steps, batch and photo notes, and the body without its code. Of the book: what it says of itself,
the names in the maker's pantry, and the classes.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.quotes import PLAIN_KEYS, TEXT_KEYS
from saponary.book.records import BatchRecord, texts
from saponary.checks.listed import BOTH, EVERYWHERE
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, Place, Severity
from saponary.reading.tree import Path, Span
from saponary.words.entries import WordList
from saponary.words.matching import Hit, find_in
from saponary.words.shown import raw, scalar, unmarked

MAX_FINDINGS = 100
"""Findings of one recipe; who has more begins with these."""

_LONGEST = 80
_KEYS = TEXT_KEYS | PLAIN_KEYS - {"lot"}


def check(context: ProofContext) -> Iterator[Finding]:
    for computed in context.recipes.values():
        yield from of_recipe(computed, context.words)
    yield from of_the_book(context.book, context.words)


def found_in(context: ProofContext, words: WordList) -> frozenset[str]:
    """Ids of the entries of a list that find anything in the book."""
    hits = [hit for computed in context.recipes.values() for _, hit in _claims(computed, words)]
    return frozenset(hit.entry.id for hit in (*hits, *(hit for _, hit in _said(context.book, words))))


def of_recipe(computed: Computed, words: WordList) -> Iterator[Finding]:
    """Claims in what a recipe says."""
    for count, (place, hit) in enumerate(_claims(computed, words)):
        if count == MAX_FINDINGS:
            message = f"more than {MAX_FINDINGS} claims; the rest are not listed"
            yield Finding(RULE.name, "error", place, message, "mend those listed first")
            return
        yield _finding(place, hit)


def _claims(computed: Computed, words: WordList) -> Iterator[tuple[Place, Hit]]:
    language = computed.settings.language
    file = computed.file
    for span in _spans(computed):
        text = scalar(file.text[span.start : span.end], span.style, span.start)
        for hit in find_in(unmarked(text, blocks=False), language, words):
            yield file.place_at(hit.start), hit
    for hit in find_in(unmarked(raw(file.body, file.body_start), blocks=True), language, words):
        yield file.place_at(hit.start), hit
    for record in computed.batches:
        if record.file == file.file:
            continue
        for path, value in texts(record):
            for hit in find_in(unmarked(raw(value), blocks=False), language, words):
                yield _inside(record, path, value, hit.start), hit


def of_the_book(book: Book, words: WordList) -> Iterator[Finding]:
    """Claims in what the book says of itself, on no recipe's page."""
    for place, hit in _said(book, words):
        yield _finding(place, hit)


def _said(book: Book, words: WordList) -> Iterator[tuple[Place, Hit]]:
    for said in book.texts:
        hits = find_in(unmarked(raw(said.text), blocks=True), book.settings.language, words)
        for hit in islice(hits, MAX_FINDINGS):
            yield said.at(hit.start), hit


def _finding(place: Place, hit: Hit) -> Finding:
    severity: Severity = "error" if hit.entry.group == "drug" else "warning"
    return Finding(RULE.name, severity, place, _message(hit), _hint(hit), told(hit))


def told(hit: Hit) -> str:
    """The words of a claim as a waiver names them."""
    words = " ".join(hit.words.casefold().split())
    return words if len(words) <= _LONGEST else f"{words[: _LONGEST - 1]}…"


def _spans(computed: Computed) -> list[Span]:
    """Where the published texts of the front matter stand, each once however often it is aliased."""
    found = {
        (span.start, span.end): span
        for path, span in computed.file.tree.values.items()
        if path and path[-1] in _KEYS and "private" not in path
    }
    return [found[key] for key in sorted(found)]


def _inside(record: BatchRecord, path: Path, value: str, offset: int) -> Place:
    """The place of a character of a value, where the value stands as it is on one line; else its beginning."""
    place = record.place(path)
    span = record.tree.values.get((*record.path, *path))
    if span is None:
        return place
    quotes = {"'": 2, '"': 2, "": 0}.get(span.style)
    if quotes is None or span.end - span.start != len(value) + quotes or "\n" in value:
        return place
    return Place(place.file, place.line, place.column + quotes // 2 + offset)


def _message(hit: Hit) -> str:
    entry = hit.entry
    said = hit.words if len(hit.words) <= _LONGEST else hit.words[: _LONGEST - 1] + "…"
    why = "; ".join(f"{place}: {entry.why[key]}" for key, place in _JURISDICTIONS if key in entry.why)
    denial = "; denying it still names it" if hit.denied else ""
    return f"“{said}” is a {entry.group} claim{denial}" + (f" ({why})" if why else "")


_JURISDICTIONS = (("us", "US"), ("eu", "EU"), ("maker", "this book"))


def _hint(hit: Hit) -> str:
    neutral = hit.entry.neutral
    return f"say what is in it or how it was made, such as: {neutral}" if neutral else "leave it out"


RULE = Rule(
    "claims",
    "words",
    "A sentence that promises more than washing makes a soap a cosmetic, or a drug, in the United States, and in the "
    "Union asks for evidence or is barred. A match is for a person to judge; it is no legal advice.",
    book=check,
    kinds=BOTH,
    waivable=EVERYWHERE,
    each="phrase",
)
