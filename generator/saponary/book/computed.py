"""A recipe that could be computed: what it says, what it comes to, and what that rests on.

It holds the settings, the pantry and the names of photos that its figures and its page need,
and not the book, so that whoever is given one knows what its result depends on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from saponary.book import quotes
from saponary.book.aims import kept
from saponary.book.catalogue import catalogue
from saponary.book.figure import Figure
from saponary.book.pictures import in_notes
from saponary.book.recipe_file import RecipeFile
from saponary.book.records import BatchRecord
from saponary.book.resolve import Resolved, resolve
from saponary.book.soaps import soap_id
from saponary.book.used import dressing, named, together, used
from saponary.lye.figures import Figures, weigh
from saponary.lye.fingerprint import fingerprint
from saponary.lye.formula import Formula
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import weight
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.names import kept_as
from saponary.reading.reporter import Located
from saponary.reading.tree import Path
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings

T = TypeVar("T")


@dataclass(frozen=True)
class Computed(Located):
    """One recipe that could be computed, with everything a rule or a view may look at."""

    file: RecipeFile
    model: Recipe
    resolved: Resolved
    figures: Figures
    catalogue: Mapping[str, Figure]
    quotes: tuple[quotes.Quote, ...]
    fingerprint: str
    batches: tuple[BatchRecord, ...]
    settings: Settings
    pantry: Pantry
    """The entries that it rests on, and those of the recipes whose scrap it holds."""
    photos: frozenset[str] = frozenset()
    """Those of its photos that the book holds, by their path inside `photos/`."""
    instead: Mapping[str, str] = field(default_factory=dict[str, str])
    """For a photo or a thing of the pour that the book does not hold: a hint, what to write instead."""
    scraps: Mapping[str, Computed] = field(default_factory=lambda: dict[str, Computed](), compare=False)
    """By slug, the recipes whose scrap is in this one, or in one of those."""
    poured_to: Mapping[str, Formula] = field(default_factory=dict[str, Formula], compare=False)
    """Earlier formulas of the recipe, by the fingerprint that a batch of it records."""
    faults: tuple[Finding, ...] = ()
    """What was found while it was resolved, and did not keep it from being computed."""

    @property
    def slug(self) -> str:
        return self.file.slug

    @property
    def path(self) -> str:
        """Its file, from the book's folder."""
        return self.file.file

    @property
    def notes(self) -> str:
        """The text below its front matter."""
        return self.file.body

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where a value (or its key) stands in the recipe file."""
        return self.file.tree.place(self.file.file, path, key=key)

    def weight(self, grams: float, decimals: int = 1) -> str:
        """A weight as text, in the units of the book."""
        return weight(grams, decimals, self.settings.units)

    def additions(self) -> Iterator[tuple[Path, str, str | None]]:
        """Every addition as written: its path, its id and the portion it goes into."""
        for index, item in enumerate(self.model.additions):
            yield ("additions", index), item.what, None
        for p, portion in enumerate(self.model.portions):
            for index, item in enumerate(portion.additions):
                yield ("portions", p, "additions", index), item.what, portion.name

    def liquids(self) -> Iterator[tuple[Path, str, str]]:
        """Every liquid as written: its path, its id and its stage."""
        for index, item in enumerate(self.model.liquids):
            yield ("liquids", index), item.what, item.at or self.model.by.liquids_at
        for p, portion in enumerate(self.model.portions):
            for index, item in enumerate(portion.liquids):
                yield ("portions", p, "liquids", index), item.what, item.at or self.model.by.liquids_at

    def pictures(self) -> list[str]:
        """The photos that it and its batches name."""
        return _pictures(self.file, self.model, self.batches)

    def scraps_of(self) -> list[str]:
        """The recipes whose scrap or soap it names."""
        soaps = (soap_id(part.of) for part in self.model.soap)
        names = (*(what for _, what, _ in self.additions()), *soaps)
        entries = map(self.pantry.additions.get, names)
        return [entry.scrap_of for entry in entries if entry is not None and entry.scrap_of is not None]


def compute(
    recipe: RecipeFile,
    batches: tuple[BatchRecord, ...],
    settings: Settings,
    pantry: Pantry,
    photos: frozenset[str],
) -> tuple[Computed | None, list[Finding]]:
    """One recipe from its text to its figures; None, with what stands in the way, where it has none."""
    if recipe.model is None:
        return None, list(recipe.findings)
    resolved, faults = resolve(recipe.model, settings, pantry, recipe.tree, recipe.file)
    if resolved is None:
        return None, [*recipe.findings, *faults]
    figures, mark = weigh(resolved.formula), fingerprint(resolved.formula)
    resolved = replace(resolved, aims=replace(resolved.aims, kept=kept(figures, batches, mark, settings)))
    named = _pictures(recipe, recipe.model, batches)
    computed = Computed(
        file=recipe,
        model=recipe.model,
        resolved=resolved,
        figures=figures,
        catalogue=catalogue(figures, resolved, settings.units),
        quotes=tuple(quotes.in_recipe(recipe)),
        fingerprint=mark,
        batches=batches,
        settings=settings,
        pantry=shelf(recipe.model, batches, pantry),
        photos=frozenset(name for name in named if kept_as(name, photos)),
        instead={
            **{name: suggest(name, photos, "photos") for name in named if not kept_as(name, photos)},
            **{
                name: suggest(name, pantry.additions, "additions")
                for name in dressing(recipe.model)
                if name not in pantry.additions
            },
        },
        faults=tuple(faults),
    )
    return computed, [*recipe.findings, *faults]


def shelf(model: Recipe, batches: Iterable[BatchRecord], pantry: Pantry) -> Pantry:
    """What the recipe names, and what its batches were weighed of."""
    weighed = [n for r in batches for n in (*r.batch.as_weighed, *r.batch.oil_lots)]
    own = used(model, pantry)
    return together((own, named(weighed, pantry))) if weighed else own


def _pictures(file: RecipeFile, model: Recipe, batches: Iterable[BatchRecord]) -> list[str]:
    """The photos that a recipe, its batches and its notes name."""
    own = [model.photo] if model.photo is not None else []
    shown = (*own, *(shot for r in batches for shot in r.batch.photos))
    return [*(shot.file for shot in shown), *(one.name for one in in_notes(file))]


def with_scraps(computed: Computed, alone: Mapping[str, Computed]) -> Computed:
    """The recipe with those whose scrap it holds, and the entries that they rest on."""
    scraps = _scraps(computed, alone)
    shelves = (computed.pantry, *(other.pantry for other in scraps.values()))
    return replace(computed, scraps=scraps, pantry=together(shelves)) if scraps else computed


def _scraps(computed: Computed, alone: Mapping[str, Computed]) -> dict[str, Computed]:
    """The recipes whose scrap a recipe holds, however deep, each once."""
    return {slug: alone[slug] for slug in deep(computed.scraps_of(), alone, Computed.scraps_of)}


def deep(first: Iterable[str], known: Mapping[str, T], more: Callable[[T], Iterable[str]]) -> list[str]:
    """Of those known, the first and all that they lead to, each once."""
    found: dict[str, None] = {}
    todo = list(first)
    while todo:
        slug = todo.pop()
        if slug in known and slug not in found:
            found[slug] = None
            todo += more(known[slug])
    return list(found)
