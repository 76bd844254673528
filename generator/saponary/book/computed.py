"""A recipe that could be computed: what it says, what it comes to, and what that rests on.

It holds the settings, the pantry and the names of photos that its figures and its page need,
and not the book, so that whoever is given one knows what its result depends on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from saponary.book import quotes
from saponary.book.catalogue import Figure, catalogue
from saponary.book.evidence import with_evidence
from saponary.book.library import Book
from saponary.book.recipe_file import RecipeFile
from saponary.book.records import BatchRecord
from saponary.book.resolve import Resolved, resolve
from saponary.lye.figures import Figures, weigh
from saponary.lye.fingerprint import fingerprint
from saponary.pantry.model import Pantry
from saponary.reading.findings import Finding, Place, Severity
from saponary.reading.tree import Path
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings


@dataclass(frozen=True)
class Computed:
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
    photos: frozenset[str] = frozenset()
    """Names of the book's photos, by their path inside `photos/`."""
    scraps: Mapping[str, Computed] = field(default_factory=dict, compare=False)
    """By slug, the recipes whose scrap is in this one, or in one of those."""
    faults: tuple[Finding, ...] = ()
    """What was found while it was resolved, and did not keep it from being computed."""

    @property
    def slug(self) -> str:
        return self.file.slug

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where a value (or its key) stands in the recipe file."""
        return self.file.tree.place(self.file.file, path, key=key)

    def finding(
        self,
        rule: str,
        path: Path,
        message: str,
        hint: str,
        severity: Severity = "error",
        *,
        key: bool = False,
        about: str = "",
    ) -> Finding:
        """A finding on the value at `path`."""
        return Finding(rule, severity, self.place(path, key=key), message, hint, about)

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
            yield ("liquids", index), item.what, item.at
        for p, portion in enumerate(self.model.portions):
            for index, item in enumerate(portion.liquids):
                yield ("portions", p, "liquids", index), item.what, item.at


def compute(recipe: RecipeFile, book: Book) -> tuple[Computed | None, list[Finding]]:
    """One recipe from its text to its figures; None, with what stands in the way, where it has none."""
    if recipe.model is None:
        return None, list(recipe.findings)
    resolved, faults = resolve(recipe.model, book.settings, book.pantry, recipe.tree, recipe.file)
    if resolved is None:
        return None, [*recipe.findings, *faults]
    figures = weigh(resolved.formula)
    computed = Computed(
        file=recipe,
        model=recipe.model,
        resolved=resolved,
        figures=figures,
        catalogue=catalogue(figures, resolved),
        quotes=tuple(quotes.in_recipe(recipe)),
        fingerprint=fingerprint(resolved.formula),
        batches=book.batches.get(recipe.slug, ()),
        settings=book.settings,
        pantry=book.pantry,
        photos=book.photos,
        faults=tuple(faults),
    )
    return computed, [*recipe.findings, *faults]


def compute_all(book: Book) -> tuple[dict[str, Computed], Pantry, list[Finding]]:
    """Every recipe that can be computed, by slug; the pantry with what the book's photos show of it.

    All are computed before any is looked at, since the photos of one recipe's batches are
    evidence for the colours of another, and the scrap of one may lie in another.
    """
    found: list[Finding] = []
    alone: dict[str, Computed] = {}
    for recipe in book.recipes:
        computed, findings = compute(recipe, book)
        found += findings
        if computed is not None:
            alone[recipe.slug] = computed
    pantry = with_evidence(book.pantry, ((c.batches, c.figures, c.fingerprint) for c in alone.values()))
    alone = {slug: replace(computed, pantry=pantry) for slug, computed in alone.items()}
    whole = {slug: replace(computed, scraps=_scraps(computed, alone)) for slug, computed in alone.items()}
    return whole, pantry, found


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
    entries = (computed.pantry.additions.get(what) for _, what, _ in computed.additions())
    return [entry.scrap_of for entry in entries if entry is not None and entry.scrap_of is not None]
