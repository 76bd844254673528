"""An entry of the claim list, and what a language brings with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, NamedTuple

from saponary.assets.digest import digest

Group = Literal["cosmetic", "drug"]
FALLBACK = "en"


class Source(NamedTuple):
    """How an entry is known, and from which publication."""

    how: str
    publication: str | None = None


class Entry(NamedTuple):
    """One kind of claim.

    `forms` are the phrases that make it (see `phrases.py`). Where there are `needs`, one
    of them must stand within `within` words. A phrase of `unless` that overlaps the words
    found, or one of `near` in the same sentence, makes them no claim. `mention` holds for
    names of diseases and the like, which count even where the sentence denies them. What
    is `alone` counts only in a sentence in which nothing else was found.
    """

    id: str
    group: Group
    forms: tuple[str, ...]
    needs: tuple[str, ...] = ()
    within: int = 6
    unless: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    mention: bool = False
    alone: bool = False
    why: Mapping[str, str] = {}
    neutral: str = ""
    source: Source = Source("maker")


@dataclass(frozen=True)
class Language:
    """One language's list: small words, named sets of words, and entries."""

    code: str
    fillers: tuple[str, ...]
    negations: tuple[str, ...]
    not_negations: tuple[str, ...]
    abbreviations: frozenset[str]
    sets: Mapping[str, tuple[str, ...]]
    entries: tuple[Entry, ...]
    safety: tuple[str, ...] = ()
    """Phrases of safety notices: no sentence that holds one makes a claim."""
    never: tuple[str, ...] = ()
    """Phrases that are no claim of any kind: plants' and colours' names, and what only looks like an ailment."""
    places: frozenset[str] = frozenset()
    """Words that names of places end or begin with."""
    titles: frozenset[str] = frozenset()
    """Words that stand before a person's name."""


@dataclass(frozen=True, eq=False)
class WordList:
    """The lists of all languages. Compared by identity, so that what is compiled from it is kept."""

    languages: Mapping[str, Language]
    publications: Mapping[str, str]

    @cached_property
    def digest(self) -> str:
        """What tells this list from one with other entries."""
        return digest(self.languages)

    def chosen(self, language: str) -> tuple[Language, ...]:
        """The list of a language such as `en` or `de-AT`; of one that has none, every list, English first."""
        own = self.languages.get(language.partition("-")[0].lower())
        if own is not None:
            return (own,)
        rest = [self.languages[code] for code in sorted(self.languages) if code != FALLBACK]
        return (self.languages[FALLBACK], *rest)

    def ids(self) -> frozenset[str]:
        """The ids of all entries."""
        return frozenset(entry.id for language in self.languages.values() for entry in language.entries)

    def only(self, kept: frozenset[str]) -> WordList:
        """This list with no entries but those of these ids."""
        return self.changed({}, self.ids() - kept)

    def changed(self, added: Mapping[str, tuple[Entry, ...]], silenced: frozenset[str]) -> WordList:
        """This list with a book's own entries, by language, and without those it has silenced."""
        languages = {
            code: replace(
                language,
                entries=(
                    *(e for e in language.entries if e.id not in silenced),
                    *added.get(code, ()),
                ),
            )
            for code, language in self.languages.items()
        }
        return WordList(languages, self.publications)
