"""What a rule is: its name, what it is for, what it may find, and where it may be waived."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.reading.findings import Finding, Severity
from saponary.schema.waivers import Home, Waived
from saponary.words.entries import WordList

Family = Literal["reading", "stale", "danger", "sense", "words", "label"]

NOWHERE: tuple[Home, ...] = ()
IN_RECIPES: tuple[Home, ...] = ("recipe",)
IN_CLASSES: tuple[Home, ...] = ("class",)
IN_THE_PANTRY: tuple[Home, ...] = ("pantry",)
EVERYWHERE: tuple[Home, ...] = ("recipe", "class", "book", "pantry")

ERROR: tuple[Severity, ...] = ("error",)
WARNING: tuple[Severity, ...] = ("warning",)
BOTH: tuple[Severity, ...] = ("error", "warning")


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


@dataclass(frozen=True)
class Rule:
    """A rule by its stable name. `about` says in plain words what it is for.

    `recipe` looks at one computed recipe, `book` at the whole book; a rule with neither is held
    while files are read or written, and listed here so that its name is known. `kinds` are the
    severities that its findings may have. `waivable` names the kinds of file that may waive it.
    Where one file may hold several findings of a rule, each is about one thing, which `each` names
    in a word, and which a waiver names too; it is empty where a file as a whole is meant.
    """

    name: str
    family: Family
    about: str
    recipe: Callable[[Computed], Iterable[Finding]] | None = None
    book: Callable[[ProofContext], Iterable[Finding]] | None = None
    kinds: tuple[Severity, ...] = ERROR
    waivable: tuple[Home, ...] = NOWHERE
    each: str = ""
