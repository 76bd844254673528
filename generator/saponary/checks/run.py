"""Every rule over a whole book, its waivers applied."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from saponary.assets.spread import spread
from saponary.assets.store import Store
from saponary.book.computed import Computed
from saponary.book.identity import Identities
from saponary.book.library import Book
from saponary.checks.claims import found_in
from saponary.checks.kept import CHECKED, Found, keep, recalled
from saponary.checks.made_elsewhere import WAIVER
from saponary.checks.rule import ProofContext
from saponary.checks.rules import RULES
from saponary.checks.settle import WaivingFile, settle
from saponary.reading.findings import Finding, Home
from saponary.schema.waivers import Waived
from saponary.words.entries import WordList

_HOMES: dict[str, Home] = {"book.yaml": "book", "pantry.yaml": "pantry"}


def check(
    context: ProofContext,
    read: Iterable[Finding],
    identities: Identities | None = None,
    store: Store | None = None,
    workers: int | None = 1,
) -> list[Finding]:
    """What was found while the book was read, and what the rules find, less what is waived.

    A recipe whose findings `store` keeps under its identity is not looked at again.
    """
    identities = identities or Identities()
    alone = _alone(context, identities, store, workers)
    found = [*read]
    for rule in RULES:
        found += [finding for one in alone for finding in one.get(rule.name, ())]
        if rule.book is not None:
            found += rule.book(context)
    files = waiving_files(context, context.book.waived)
    return [*settle(found, files, {rule.name: rule for rule in RULES}), *_idle_silences(context)]


def _alone(
    context: ProofContext, identities: Identities, store: Store | None, workers: int | None
) -> list[Found]:
    """What the rules find in each recipe alone, in the book's order."""
    recipes = list(context.recipes.values())
    if store is None:
        return list(spread(len(recipes), lambda n: in_recipe(recipes[n], context.words), workers))
    words = identities.shared([context.words.languages])
    keys = [CHECKED.key(identities.of(one), words) for one in recipes]
    kept = [recalled(store, key) for key in keys]
    todo = [n for n, found in enumerate(kept) if found is None]
    made = spread(len(todo), lambda n: in_recipe(recipes[todo[n]], context.words), workers)
    for n, found in zip(todo, made, strict=True):
        kept[n] = found
        keep(store, keys[n], found)
    return [found for found in kept if found is not None]


def in_recipe(computed: Computed, words: WordList) -> Found:
    """What each rule finds in one recipe, whatever else is in the book."""
    found: dict[str, tuple[Finding, ...]] = {}
    for rule in RULES:
        own = tuple(rule.recipe(computed)) if rule.recipe is not None else ()
        said = tuple(rule.words(computed, words)) if rule.words is not None else ()
        found[rule.name] = (*own, *said)
    return found


def waiving_files(context: ProofContext, waived: Iterable[Waived]) -> list[WaivingFile]:
    """Every file that may waive; `waived` are the waivers of all but the recipes."""
    by_file: dict[str, tuple[Waived, ...]] = {}
    for waiver in waived:
        by_file[waiver.place.file] = (*by_file.get(waiver.place.file, ()), waiver)
    answers = {"book.yaml": frozenset(_without_waivers(context.book))}
    files = [
        WaivingFile(name, home, by_file.get(name, ()), answers.get(name, frozenset()))
        for name, home in _HOMES.items()
    ]
    for taught in context.book.classes:
        waivers = by_file.get(taught.file, ())
        files.append(WaivingFile(taught.file, "class", waivers, checked=taught.plan is not None))
    for recipe in context.book.recipes:
        own = _batch_files(context.book, recipe.slug) - {recipe.file}
        files.append(WaivingFile(recipe.file, "recipe", recipe.waived(), own, recipe.slug in context.recipes))
    return files


def _without_waivers(book: Book) -> Iterator[str]:
    """Files that hold no waivers of their own, for which `book.yaml` answers."""
    yield from (said.place.file for said in book.templates)
    yield from (f"photos/{name}" for name in book.photos)


def _batch_files(book: Book, slug: str) -> frozenset[str]:
    return frozenset(record.file for record in book.batches.get(slug, ()))


def _idle_silences(context: ProofContext) -> Iterator[Finding]:
    """Entries of the list of claim words that are silenced, and would find nothing."""
    if context.silenced is None:
        return
    loud = found_in(context, context.silenced)
    for name, silence in context.silences.items():
        if name not in loud:
            message = f"the entry {name!r} finds nothing in this book"
            yield Finding(WAIVER.name, "warning", silence.place, message, "take it out of silence:")
