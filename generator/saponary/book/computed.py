"""A recipe that could be computed: what it says, what it comes to, and what that rests on.

It holds the settings, the pantry and the names of photos that its figures and its page need,
and not the book, so that whoever is given one knows what its result depends on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from saponary.book import quotes
from saponary.book.aims import kept
from saponary.book.catalogue import Figure, catalogue
from saponary.book.evidence import with_evidence
from saponary.book.library import Book
from saponary.book.pictures import in_notes
from saponary.book.recipe_file import RecipeFile
from saponary.book.records import BatchRecord
from saponary.book.resolve import Resolved, resolve
from saponary.book.soaps import soap_id, with_soaps
from saponary.book.used import dressing, named, together, used
from saponary.lye.figures import Figures, weigh
from saponary.lye.fingerprint import fingerprint
from saponary.lye.formula import Formula
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import weight
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.reporter import Located
from saponary.reading.tree import Path
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings


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


def compute(recipe: RecipeFile, book: Book) -> tuple[Computed | None, list[Finding]]:
    """One recipe from its text to its figures; None, with what stands in the way, where it has none."""
    if recipe.model is None:
        return None, list(recipe.findings)
    resolved, faults = resolve(recipe.model, book.settings, book.pantry, recipe.tree, recipe.file)
    if resolved is None:
        return None, [*recipe.findings, *faults]
    figures = weigh(resolved.formula)
    batches, mark = book.batches.get(recipe.slug, ()), fingerprint(resolved.formula)
    keeps = kept(figures, batches, mark, book.settings)
    resolved = replace(resolved, aims=replace(resolved.aims, kept=keeps))
    pictures = [*_pictures(recipe.model, batches), *(one.name for one in in_notes(recipe))]
    computed = Computed(
        file=recipe,
        model=recipe.model,
        resolved=resolved,
        figures=figures,
        catalogue=catalogue(figures, resolved, book.settings.units),
        quotes=tuple(quotes.in_recipe(recipe)),
        fingerprint=mark,
        batches=batches,
        settings=book.settings,
        pantry=_shelf(recipe.model, batches, book.pantry),
        photos=book.photos.intersection(pictures),
        instead={
            **{name: suggest(name, book.photos, "photos") for name in pictures if name not in book.photos},
            **{
                name: suggest(name, book.pantry.additions, "additions")
                for name in dressing(recipe.model)
                if name not in book.pantry.additions
            },
        },
        faults=tuple(faults),
    )
    return computed, [*recipe.findings, *faults]


def compute_all(book: Book) -> tuple[dict[str, Computed], Pantry, list[Finding]]:
    """Every recipe that can be computed, by slug; the pantry with what the book's photos show of it.

    All are computed before any is looked at, since the photos of one recipe's batches are
    evidence for the colours of another, and the scrap of one may lie in another.
    """
    found: list[Finding] = []
    book = replace(book, pantry=with_soaps(book.pantry, book.recipes))
    alone: dict[str, Computed] = {}
    for recipe in book.recipes:
        computed, findings = compute(recipe, book)
        found += findings
        if computed is not None:
            alone[recipe.slug] = computed
    pantry = with_evidence(book.pantry, ((c.batches, c.figures, c.fingerprint) for c in alone.values()))
    alone = {slug: replace(one, pantry=_shelf(one.model, one.batches, pantry)) for slug, one in alone.items()}
    return {slug: _with_scraps(one, alone) for slug, one in alone.items()}, pantry, found


def _shelf(model: Recipe, batches: Iterable[BatchRecord], shelf: Pantry) -> Pantry:
    """What the recipe names, and what its batches were weighed of."""
    weighed = [n for r in batches for n in (*r.batch.as_weighed, *r.batch.oil_lots)]
    own = used(model, shelf)
    return together((own, named(weighed, shelf))) if weighed else own


def _pictures(model: Recipe, batches: Iterable[BatchRecord]) -> list[str]:
    """The photos that a recipe and its batches name."""
    own = [model.photo] if model.photo is not None else []
    return [shot.file for shot in (*own, *(shot for r in batches for shot in r.batch.photos))]


def _with_scraps(computed: Computed, alone: Mapping[str, Computed]) -> Computed:
    scraps = _scraps(computed, alone)
    shelves = (computed.pantry, *(other.pantry for other in scraps.values()))
    return replace(computed, scraps=scraps, pantry=together(shelves)) if scraps else computed


def _scraps(computed: Computed, alone: Mapping[str, Computed]) -> dict[str, Computed]:
    """The recipes whose scrap a recipe holds, however deep, each once."""
    found: dict[str, Computed] = {}
    todo = list(_scraps_of(computed))
    while todo:
        slug = todo.pop()
        if slug in alone and slug not in found:
            found[slug] = alone[slug]
            todo += _scraps_of(alone[slug])
    return found


def _scraps_of(computed: Computed) -> Iterable[str]:
    soaps = (soap_id(part.of) for part in computed.model.soap)
    names = (*(what for _, what, _ in computed.additions()), *soaps)
    entries = map(computed.pantry.additions.get, names)
    return [entry.scrap_of for entry in entries if entry is not None and entry.scrap_of is not None]
