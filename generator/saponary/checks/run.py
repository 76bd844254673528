"""Every rule over a whole book, its waivers applied."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.assets.spread import spread
from saponary.book.computed import Computed
from saponary.book.facts import facts_of
from saponary.book.library import Book
from saponary.book.outline import Outline
from saponary.checks.claims import entries_in, entries_in_the_book_itself
from saponary.checks.kept import Checked, Kept
from saponary.checks.made_elsewhere import WAIVER
from saponary.checks.rule import Mention, ProofContext
from saponary.checks.rules import RULES
from saponary.checks.settle import WaivingFile, settle, settle_one
from saponary.reading.findings import Finding, Home
from saponary.schema.waivers import Waived
from saponary.words.entries import WordList

_RULES = {rule.name: rule for rule in RULES}
_HOMES: dict[str, Home] = {"book.yaml": "book", "pantry.yaml": "pantry"}


class Outcome(NamedTuple):
    """What a book's rules found, less what is waived; and each of its recipes, looked at, as it may be kept."""

    findings: list[Finding]
    recipes: Mapping[str, Checked]
    rests: Mapping[str, str]
    """By recipe, a digest of all that the rules looked at."""

    def kept(self, slug: str, outline: Outline, before: Kept | None) -> Kept:
        """A recipe as it is kept; what was kept before, where that is the same."""
        now = Kept(outline, self.rests[slug], self.recipes[slug])
        if before is None or before.checked is not now.checked or before.outline is not outline:
            return now
        return before if before.rests == now.rests else now


class Words(NamedTuple):
    """The claim words that a book looks for, and those alone that it looks away from; None where there are none."""

    listed: WordList
    silenced: WordList | None

    @property
    def digest(self) -> str:
        return digest([self.listed.digest, self.silenced and self.silenced.digest])


def check(
    context: ProofContext,
    read: Iterable[Finding],
    identities: Mapping[str, str],
    kept: Mapping[str, Kept] | None = None,
    workers: int | None = 1,
) -> Outcome:
    """What was found while the book was read, and what the rules find, less what is waived.

    A recipe that is `kept`, and is as it was by its identity, is not looked at again.
    """
    words = Words(context.words, context.silenced).digest
    rests = {slug: f"{identities[slug]} {words}" for slug in context.recipes}
    alone = _alone(context, rests, kept or {}, workers)
    facts = {slug: one.facts for slug, one in alone.items()}
    context = replace(context, mentions=_mentions(alone), facts=facts)
    found = [*read, *(finding for one in alone.values() for finding in one.elsewhere)]
    for rule in RULES:
        if rule.book is not None:
            found += rule.book(context)
    files = waiving_files(context, alone, {finding.place.file for finding in found})
    settled = settle(found, files, _RULES, (finding for one in alone.values() for finding in one.found))
    return Outcome([*settled, *_idle_silences(context, alone)], alone, rests)


def _mentions(alone: Mapping[str, Checked]) -> Mapping[str, Mapping[str, Sequence[Mention]]]:
    """By rule, then by recipe: what it asked of all, where there was an answer."""
    asked: dict[str, dict[str, Sequence[Mention]]] = {rule.name: {} for rule in RULES if rule.mentions}
    for slug, one in alone.items():
        for name, mentions in one.mentions.items():
            asked[name][slug] = mentions
    return asked


def _alone(
    context: ProofContext, rests: Mapping[str, str], kept: Mapping[str, Kept], workers: int | None
) -> dict[str, Checked]:
    """Each recipe alone, in the book's order."""
    known = {
        slug: kept[slug].checked for slug, one in rests.items() if slug in kept and kept[slug].rests == one
    }
    todo = [slug for slug in context.recipes if slug not in known]
    recipes = [context.recipes[slug] for slug in todo]
    made = spread(len(todo), lambda n: looked_at(recipes[n], context.words, context.silenced), workers)
    known |= dict(zip(todo, made, strict=True))
    return {slug: known[slug] for slug in context.recipes}


def looked_at(computed: Computed, words: WordList, silenced: WordList | None) -> Checked:
    """One recipe, looked at by every rule, less what it waives itself."""
    facts = facts_of(computed)
    others = frozenset(facts.batch_files) - {computed.path}
    file = WaivingFile(computed.path, "recipe", facts.waived, others)
    here: list[Finding] = []
    elsewhere: list[Finding] = []
    for finding in in_recipe(computed, words):
        (here if finding.place.file in (file.name, *others) else elsewhere).append(finding)
    left, used = settle_one(here, file, _RULES)
    return Checked(
        found=left,
        elsewhere=tuple(elsewhere),
        used=used,
        mentions={
            rule.name: mentions
            for rule in RULES
            if rule.mentions is not None and (mentions := tuple(rule.mentions(computed)))
        },
        silenced=entries_in(computed, silenced) if silenced is not None else frozenset(),
        facts=facts,
    )


def in_recipe(computed: Computed, words: WordList) -> Iterator[Finding]:
    """What the rules find in one recipe, whatever else is in the book."""
    for rule in RULES:
        if rule.recipe is not None:
            yield from rule.recipe(computed)
        if rule.words is not None:
            yield from rule.words(computed, words)


def waiving_files(
    context: ProofContext, alone: Mapping[str, Checked], spoken_of: Collection[str]
) -> list[WaivingFile]:
    """The files that may waive; of recipes those that do, and those that are `spoken_of`."""
    book = context.book
    by_file: dict[str, tuple[Waived, ...]] = {}
    for waiver in book.waived:
        by_file[waiver.place.file] = (*by_file.get(waiver.place.file, ()), waiver)
    answers = {"book.yaml": frozenset(_without_waivers(book))}
    files = [
        WaivingFile(name, home, by_file.get(name, ()), answers.get(name, frozenset()))
        for name, home in _HOMES.items()
    ]
    for taught in book.classes:
        waivers = by_file.get(taught.file, ())
        files.append(WaivingFile(taught.file, "class", waivers, checked=taught.plan is not None))
    for page in book.pages:
        waivers = by_file.get(page.file, ())
        files.append(WaivingFile(page.file, "page", waivers, checked=page.plan is not None))
    for recipe in book.recipes:
        one = alone.get(recipe.slug)
        waived = one.facts.waived if one is not None else recipe.waived()
        of_batches = one.facts.batch_files if one is not None else _batch_files(book, recipe.slug)
        if waived or recipe.file in spoken_of or any(name in spoken_of for name in of_batches):
            used = one.used if one is not None else frozenset[int]()
            own = frozenset(of_batches) - {recipe.file}
            files.append(WaivingFile(recipe.file, "recipe", waived, own, one is not None, used))
    return files


def _without_waivers(book: Book) -> Iterator[str]:
    """Files that hold no waivers of their own, for which `book.yaml` answers."""
    yield from (said.place.file for said in book.templates)
    yield from (f"photos/{name}" for name in book.photos)


def _batch_files(book: Book, slug: str) -> Iterable[str]:
    return (record.file for record in book.batches.get(slug, ()))


def _idle_silences(context: ProofContext, alone: Mapping[str, Checked]) -> Iterator[Finding]:
    """Entries of the list of claim words that are silenced, and would find nothing."""
    if context.silenced is None:
        return
    loud = entries_in_the_book_itself(context.book, context.silenced)
    loud = loud.union(*(one.silenced for one in alone.values()))
    for name, silence in context.silences.items():
        if name not in loud:
            message = f"the entry {name!r} finds nothing in this book"
            yield Finding(WAIVER.name, "warning", silence.place, message, "take it out of silence:")
