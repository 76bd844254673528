"""A rule with what it checks, and what it may look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.checks.listed import Listed
from saponary.reading.findings import Finding
from saponary.schema.waivers import Waived
from saponary.words.entries import WordList


@dataclass(frozen=True)
class ProofContext:
    """All that a rule about the whole book may look at."""

    book: Book
    recipes: Mapping[str, Computed]
    """Those that could be computed, by slug."""
    words: WordList
    """The claim words that this book looks for."""
    silenced: WordList | None = None
    """Those alone that it looks away from; None where there are none."""
    silences: Mapping[str, Waived] = field(default_factory=dict[str, Waived])
    """By the id of the entry, where it is silenced and why."""
    today: date | None = None
    """The day on which the book is proofed, by the clock; None where nothing is held to it."""


@dataclass(frozen=True)
class Rule(Listed):
    """A rule with what it checks.

    `recipe` looks at one computed recipe, `words` at one with the claim words that the book looks for,
    `book` at the whole book, and at nothing that is found in a recipe alone; a rule with none is held
    while files are read or written, and listed here so that its name is known.
    """

    recipe: Callable[[Computed], Iterable[Finding]] | None = None
    words: Callable[[Computed, WordList], Iterable[Finding]] | None = None
    book: Callable[[ProofContext], Iterable[Finding]] | None = None
