"""Every recipe of a book computed, as far as somebody asks: those of which an outline holds are computed late.

All are known before any is looked at, since the photos of one recipe's batches are evidence for
the colours of another, and the scrap of one may lie in another.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.book.computed import Computed, compute, deep, shelf, with_scraps
from saponary.book.evidence import with_evidence
from saponary.book.late import late
from saponary.book.library import Book
from saponary.book.outline import Outline, Rests, melted, outline_of, titles
from saponary.book.own_files import own_files
from saponary.book.recipe_file import RecipeFile
from saponary.book.soaps import with_soaps
from saponary.pantry.model import Pantry
from saponary.reading.findings import Finding


class Rested(NamedTuple):
    """What recipes rest on before and after the book's photos have shown what they show of it."""

    plain: Rests | None = None
    shown: Rests | None = None


NEVER = Rested()
"""Of a book that was not computed before."""


class AllComputed(NamedTuple):
    """The recipes that can be computed, by slug.

    `pantry` is the book's with what its photos show of it, `outlines` are those that may be kept, `identities`
    digests of all that a recipe rests on: of two with the same, the same is made by the same code.
    """

    recipes: Mapping[str, Computed]
    pantry: Pantry
    findings: list[Finding]
    outlines: Mapping[str, Outline]
    identities: Mapping[str, str]
    anew: tuple[str, ...]
    """Those that no outline told of."""
    sources: Sources
    rests: Rested


class Sources:
    """What each recipe rests on in the maker's own words: files, settings, entries of the pantry; with digests."""

    def __init__(self, book: Book, outlines: Mapping[str, Outline], rests: Rests, settings: str) -> None:
        self._digests, self._outlines, self._rests, self._settings = book.digests, outlines, rests, settings

    def all(self) -> dict[str, str]:
        """Of all recipes."""
        words = {word for one in self._outlines.values() for word in one.words}
        entries = self._rests.entries(sorted(words))
        return {
            "book.yaml": self._settings,
            **self._digests,
            **{f"pantry: {n}": of for n, of in entries.items()},
        }

    def of(self, slug: str) -> dict[str, str]:
        """Of one recipe, and of those whose scrap it holds."""
        found: dict[str, str] = {}
        for name in (slug, *deep(self._outlines[slug].scraps, self._outlines, lambda one: one.scraps)):
            found |= {file: self._digests[file] for file in own_files(name) if file in self._digests}
            found |= {f"pantry: {n}": of for n, of in self._rests.entries(self._outlines[name].words).items()}
        return {**found, "book.yaml": self._settings}


def compute_all(book: Book, last: Rested = NEVER) -> AllComputed:
    """Compute a book. Nothing is computed of a recipe whose outline the book holds, and whose entries are as they were.

    `last` is what its recipes rested on when it was computed before.
    """
    called = titles(book.recipes, book.outlines)
    pantry = with_soaps(book.pantry, called, melted(book.recipes, book.outlines))
    settings = digest(book.settings)
    rests = Rests(pantry, settings, book.photos, last.plain)
    found = _Found(book, pantry)
    for recipe in book.recipes:
        was = book.outlines.get(recipe.slug)
        if was is not None and was.alone == rests.key(was):
            found.as_it_was(recipe, was)
        else:
            found.compute(recipe, rests)
    shown = with_evidence(pantry, (chip for one in found.outlines.values() for chip in one.chips))
    found.makes.shown = shown
    known = rests if shown is pantry else Rests(shown, settings, book.photos, last.shown)
    return AllComputed(
        recipes={slug: found.whole(slug) for slug in found.alone},
        pantry=shown,
        findings=found.findings,
        outlines={s: one for s, one in found.outlines.items() if s not in found.odd and s in book.own},
        identities=found.identities(None if known is rests else known),
        anew=tuple(found.anew),
        sources=Sources(book, found.outlines, known, settings),
        rests=Rested(rests, known),
    )


def _own(computed: Computed) -> str:
    """A digest of what a recipe says that was read from no files."""
    return digest([computed.path, computed.file.text, *(one.tree for one in computed.batches)])


class _Makes:
    """Makes recipes of a book, each when it is asked for; `shown` is the pantry with what its photos show of it.

    It knows of none that it has made: a recipe leads to what it is made of, and nothing there leads back to it.
    """

    def __init__(self, book: Book, pantry: Pantry) -> None:
        self._book, self._plain, self.shown = book, pantry, pantry

    def computed(self, recipe: RecipeFile) -> tuple[Computed | None, list[Finding]]:
        book = self._book
        batches = book.batches.get(recipe.slug, ())
        return compute(recipe, batches, book.settings, self._plain, book.photos)

    def again(self, recipe: RecipeFile) -> Computed:
        computed, _ = self.computed(recipe)
        assert computed is not None, f"{recipe.file} could be computed, and cannot be now"
        return self.with_evidence(computed)

    def with_evidence(self, computed: Computed) -> Computed:
        """With what the book's photos show of its colours."""
        return replace(computed, pantry=shelf(computed.model, computed.batches, self.shown))


class _Found:
    """What is known so far. `odd` are recipes that say of others, or of what is not there, more than an outline tells."""

    def __init__(self, book: Book, pantry: Pantry) -> None:
        self._own, self.makes = book.own, _Makes(book, pantry)
        self.alone: dict[str, Computed] = {}
        self.outlines: dict[str, Outline] = {}
        self.findings: list[Finding] = []
        self.odd: dict[str, str] = {}
        self.anew: list[str] = []

    def as_it_was(self, recipe: RecipeFile, was: Outline) -> None:
        self.outlines[recipe.slug] = was
        make = partial(self.makes.again, recipe)
        self.alone[recipe.slug] = late(Computed, make, file=recipe)

    def compute(self, recipe: RecipeFile, rests: Rests) -> None:
        computed, findings = self.makes.computed(recipe)
        self.findings += findings
        if computed is None:
            return
        slug = recipe.slug
        self.anew.append(slug)
        self.outlines[slug] = outline_of(computed, self._own.get(slug) or _own(computed), rests)
        if findings or computed.instead:
            self.odd[slug] = digest([computed.instead, computed.faults, computed.file.text])
        self.alone[slug] = late(Computed, partial(self.makes.with_evidence, computed), file=recipe)

    def whole(self, slug: str) -> Computed:
        """With the recipes whose scrap it holds."""
        one = self.alone[slug]
        if not self.outlines[slug].scraps:
            return one
        return late(Computed, partial(with_scraps, one, self.alone), file=one.file)

    def identities(self, other: Rests | None) -> dict[str, str]:
        """By slug; `other` is what the recipes rest on, where the outlines were marked by something else."""
        own = {s: one.alone if other is None else other.key(one) for s, one in self.outlines.items()}
        return {slug: self._identity(slug, own) for slug in self.outlines}

    def _identity(self, slug: str, own: Mapping[str, str]) -> str:
        held = deep(self.outlines[slug].scraps, self.outlines, lambda one: one.scraps)
        return identity((name, own[name], self.odd.get(name, "")) for name in (slug, *held))


def identity(rests: Iterable[tuple[str, str, str]]) -> str:
    """A mark of all that a recipe rests on. Of itself, and of each whose scrap it holds: the name, a digest of what
    that rests on, and one of what is odd in it, '' where nothing is."""
    lines = [f"{name} {own} {odd or '-'}" for name, own, odd in rests]
    return (
        lines[0]
        if len(lines) == 1
        else hashlib.sha256("\n".join(lines).encode("utf-8", "surrogatepass")).hexdigest()
    )
