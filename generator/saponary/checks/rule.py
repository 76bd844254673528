"""A rule with what it checks, and what it may look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from saponary.book.computed import Computed
from saponary.book.facts import Facts
from saponary.book.library import Book
from saponary.checks.listed import Listed
from saponary.reading.findings import Finding, Place
from saponary.schema.waivers import Waived
from saponary.words.entries import WordList


@dataclass(frozen=True)
class Mention:
    """What a rule about the whole book asks of a recipe: a text, where it stands, and what a waiver calls it."""

    text: str
    place: Place
    about: str = ""


@dataclass(frozen=True)
class ProofContext:
    """All that a rule about the whole book may look at."""

    book: Book
    recipes: Mapping[str, Computed]
    """Those that could be computed, by slug. Each is read when it is asked about, if it is as it was."""
    words: WordList
    """The claim words that this book looks for."""
    silenced: WordList | None = None
    """Those alone that it looks away from; None where there are none."""
    silences: Mapping[str, Waived] = field(default_factory=dict[str, Waived])
    """By the id of the entry, where it is silenced and why."""
    mentions: Mapping[str, Mapping[str, Sequence[Mention]]] = field(
        default_factory=dict[str, Mapping[str, Sequence[Mention]]]
    )
    """By rule, then by recipe of those that had an answer: what the rule asked of it."""
    facts: Mapping[str, Facts] = field(default_factory=dict[str, Facts])
    """Of those that could be computed: what may be known of each without reading it."""
    today: date | None = None
    """The day on which the book is proofed, by the clock; None where nothing is held to it."""


@dataclass(frozen=True)
class Rule(Listed):
    """A rule with what it checks.

    `recipe` looks at one computed recipe, `words` at one with the claim words that the book looks for,
    `book` at the whole book, and at nothing that is found in a recipe alone; what it asks of every recipe is
    what `mentions` makes of it, which is kept, so that not all are read. A rule with none is held
    while files are read or written, and listed here so that its name is known.
    """

    recipe: Callable[[Computed], Iterable[Finding]] | None = None
    words: Callable[[Computed, WordList], Iterable[Finding]] | None = None
    mentions: Callable[[Computed], Iterable[Mention]] | None = None
    book: Callable[[ProofContext], Iterable[Finding]] | None = None
