"""An edition of the book: recipes with everything taken out that its readers may not see.

The cut is made here, before any view or template is reached, and by an allow-list: what an
edition does not show is gone from what the pages are given.
"""

from __future__ import annotations

from dataclasses import replace

from saponary.book.classes import ClassFile
from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.recipe_file import RecipeFile
from saponary.book.records import BatchRecord
from saponary.pantry.model import Pantry
from saponary.reading.tree import Tree
from saponary.schema.batch import Batch
from saponary.schema.edition import Edition
from saponary.schema.recipe import Recipe
from saponary.views.site import RecipeInput, SiteInput

_TAUGHT = ["class", "bench"]
"""Where a class is shown that does not say: not on the open site."""


def edit(site: SiteInput, edition: Edition) -> SiteInput:
    """The site as an edition may show it."""
    shelf = site.book.pantry if "costs" in edition.shows else _without_prices(site.book.pantry)
    taught = tuple(
        c for c in site.book.classes if c.plan is not None and _kept(c.plan.editions or _TAUGHT, edition)
    )
    book = replace(
        site.book,
        settings=site.book.settings.model_copy(update={"waive": []}),
        pantry=shelf,
        recipes=[],
        batches={},
        findings=[],
        own_claims=None,
        texts=(),
        classes=tuple(_lesson(one) for one in taught),
        waived=site.book.waived if "waivers" in edition.shows else (),
    )
    recipes = tuple(
        RecipeInput(
            _cut(recipe.computed, edition, replace(book, classes=(), waived=())),
            recipe.status,
            recipe.warnings if "remarks" in edition.shows else (),
        )
        for recipe in site.recipes
        if _kept(recipe.computed.model.editions, edition)
        and (recipe.status.name != "draft" or "drafts" in edition.shows)
    )
    shown = {shot.file for r in recipes for record in r.computed.batches for shot in record.batch.photos}
    shown |= {r.computed.model.photo.file for r in recipes if r.computed.model.photo is not None}
    slugs = {recipe.slug for recipe in recipes} if "badge" in edition.shows else set()
    return replace(
        site,
        book=book,
        recipes=recipes,
        changed={
            slug: one if "private" in edition.shows else replace(one, again=False)
            for slug, one in site.changed.items()
            if slug in slugs
        },
        edition=edition,
        photos={name: photo for name, photo in site.photos.items() if name in shown},
        earlier={r.slug: site.earlier.get(r.slug, {}) for r in recipes} if "batches" in edition.shows else {},
    )


def _lesson(taught: ClassFile) -> ClassFile:
    assert taught.plan is not None
    plan = taught.plan.model_copy(update={"waive": []})
    return ClassFile(taught.file, taught.slug, taught.body, plan=plan)


def _kept(named: list[str], edition: Edition) -> bool:
    return not named or edition.name in named


def _cut(computed: Computed, edition: Edition, book: Book) -> Computed:
    model = _recipe(computed.model, edition)
    notes = computed.file.body if "notes" in edition.shows else ""
    file = RecipeFile(computed.file.file, computed.file.slug, notes, model=model)
    records = tuple(_record(r, edition) for r in computed.batches if _kept(r.batch.editions, edition))
    return replace(
        computed,
        file=file,
        model=model,
        batches=tuple(r for r in records if r is not None),
        settings=book.settings,
        pantry=book.pantry,
        photos=frozenset(),
        scraps={},
        faults=(),
    )


def _recipe(recipe: Recipe, edition: Edition) -> Recipe:
    shows = edition.shows
    gone: dict[str, object] = {"batches": []}
    if "waivers" not in shows:
        gone |= {"waive": []}
    if "private" not in shows:
        gone |= {"private": None}
    if "summary" not in shows:
        gone |= {"summary": ""}
    if "photos" not in shows:
        gone |= {"photo": None}
    if "work" not in shows:
        gone |= {"steps": [], "vessel": None}
        gone |= {"portions": [portion.model_copy(update={"note": None}) for portion in recipe.portions]}
    if edition.formula != "full":
        gone |= {"stated": {}, "sizes": []}
    return recipe.model_copy(update=gone)


def _record(record: BatchRecord, edition: Edition) -> BatchRecord | None:
    """A batch as far as it is shown: whole, or only its photos, or not at all."""
    batch, shows = record.batch, edition.shows
    photos = batch.photos if "photos" in shows else []
    if "batches" not in shows:
        if not photos:
            return None
        kept = Batch.model_construct(lot=batch.lot, poured=batch.poured, formula=batch.formula, photos=photos)
    else:
        gone: dict[str, object] = {"photos": photos}
        if "people" not in shows:
            gone |= {"by": None, "store": None, "shelf": None}
        if "private" not in shows:
            gone |= {"private": None}
        kept = batch.model_copy(update=gone)
    return replace(record, batch=kept, tree=Tree())


def _without_prices(shelf: Pantry) -> Pantry:
    return replace(
        shelf,
        oils={key: replace(entry, price_per_kg=None) for key, entry in shelf.oils.items()},
        liquids={key: replace(entry, price_per_kg=None) for key, entry in shelf.liquids.items()},
        additions={key: replace(entry, price_per_kg=None) for key, entry in shelf.additions.items()},
    )
