"""Proof: read the book, compute every recipe, check everything. Writes nothing."""

from __future__ import annotations

import gc
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import chain, groupby
from operator import attrgetter
from pathlib import Path
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.assets.stamps import clock
from saponary.assets.store import FOLDER, Store
from saponary.book.computed import Computed
from saponary.book.computed_all import NEVER, Rested, Sources, compute_all
from saponary.book.library import CLAIMS, Book, Unlooked, read_book
from saponary.book.outline import Outline
from saponary.book.proofed import Proofed
from saponary.build.first_look import first_look
from saponary.build.glimpse import Asked, Glimpse, Glimpses
from saponary.build.history import Formulas, formulas_lacking, untold
from saponary.checks.kept import Checked, Kept, keep, keep_stamps, recalled, stamps_recalled
from saponary.checks.made_elsewhere import READING, SCHEMA
from saponary.checks.rule import ProofContext
from saponary.checks.run import Words, check
from saponary.reading.files import Files, Folder
from saponary.reading.findings import Finding, has_errors
from saponary.reading.stamped import Noted, Stamped
from saponary.words.reader import Own, read_own
from saponary.words.standard import standard as standard_words


class Left(NamedTuple):
    """What a proof leaves behind: what the next need not look at or read."""

    recipes: Mapping[str, Kept] = {}
    stamps: Mapping[str, Noted] = {}
    rests: Rested = NEVER


_NOTHING = Left()


@dataclass(frozen=True)
class Proof:
    """A whole book, proofed: recipes that could be computed, and every finding."""

    book: Book
    recipes: tuple[Proofed, ...]
    findings: tuple[Finding, ...]
    sources: Sources
    left: Left
    glimpses: Glimpses = field(default_factory=Glimpses)
    """What was seen of recipes at a first look, for the editions that were asked for."""

    @property
    def failed(self) -> bool:
        return has_errors(self.findings)


def prove(
    root: Path,
    store: Store | None = None,
    workers: int | None = 1,
    files: Files | None = None,
    asked: Asked | None = None,
) -> Proof:
    """Read and check the book in `root`, with several workers (None for as many as there are processors).

    What `store` keeps of a recipe's findings is not looked for again. `files` are those of the folder, `asked` the
    editions to be built next.
    """
    if store is None:
        return prove_again(root, Left(), workers, files, asked)
    with uncollected():
        before = Left(recalled(store), stamps_recalled(store))
        proof = prove_again(root, before, workers, files, asked)
    if proof.left.recipes != before.recipes:
        keep(store, proof.left.recipes)
    if proof.left.stamps != before.stamps:
        keep_stamps(store, proof.left.stamps)
    return proof


def prove_again(
    root: Path,
    before: Left,
    workers: int | None = 1,
    files: Files | None = None,
    asked: Asked | None = None,
) -> Proof:
    """The same, with what the last proof left behind at hand."""
    with uncollected():
        known, seen = dict(before.recipes), dict[str, Glimpse]()

        def look(book: Unlooked, names: list[str]) -> dict[str, Outline]:
            looked = first_look(book, names, _words(_own_words(book.claims)[0]), workers, asked)
            known.update({slug: one.kept for slug, one in looked.items()})
            seen.update({slug: one.glimpse for slug, one in looked.items()})
            return {slug: one.kept.outline for slug, one in looked.items()}

        folder = root / FOLDER
        stamped = Stamped(root, before.stamps, clock(folder) if folder.is_dir() else None)
        outlines = {slug: one.outline for slug, one in before.recipes.items()}
        book = read_book(files or Folder(root), outlines, look, stamped)
        proof = prove_book(book, formulas_lacking, workers, date.today(), before._replace(recipes=known))
        left = proof.left._replace(stamps=stamped.kept)
        return replace(proof, left=left, glimpses=Glimpses(asked.on if asked else None, seen))


@contextmanager
def uncollected() -> Generator[None, None, None]:
    """While a book is read nearly all that is made stays: looking through it for what does not is in vain."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def prove_book(
    book: Book,
    earlier: Callable[[Book, Iterable[Computed]], Formulas] = lambda book, recipes: {},
    workers: int | None = 1,
    today: date | None = None,
    before: Left = _NOTHING,
) -> Proof:
    """Compute and check a book that has been read; pure but for `earlier`, which finds formulas of old batches.

    No batch may be recorded for a day after `today`, by the clock; None holds none to it.
    """
    found = compute_all(book, before.rests)
    lacking = [found.recipes[slug] for slug in found.anew if untold(found.recipes[slug])]
    poured_to: Formulas = earlier(book, lacking) if lacking else {}
    recipes, identities = {**found.recipes}, {**found.identities}
    for slug, formulas in poured_to.items():
        recipes[slug] = replace(recipes[slug], poured_to=formulas)
        identities[slug] = f"{identities[slug]} {digest(formulas)}"
    book = replace(book, pantry=found.pantry)
    own, own_faults = _own_words(book.own_claims)
    words = _words(own)
    context = ProofContext(
        book=book,
        recipes=recipes,
        words=words.listed,
        silenced=words.silenced,
        silences=own.silences,
        today=today,
    )
    outcome = check(
        context, (*book.findings, *found.findings, *own_faults), identities, before.recipes, workers
    )
    findings = outcome.findings if not book.unread else _without_sums(outcome.findings, book)
    by_place = attrgetter("by_place")
    findings = [next(same) for _, same in groupby(sorted(findings, key=by_place), by_place)]
    proofed = tuple(_proofed(recipes, outcome.recipes, identities, findings))
    of_recipes = [waiver for one in proofed for waiver in one.facts.waived]
    book = replace(book, waived=(*of_recipes, *book.waived, *own.silences.values()))
    odd = {one.slug for one in lacking}
    now = {
        slug: outcome.kept(slug, one, before.recipes.get(slug))
        for slug, one in found.outlines.items()
        if slug not in odd
    }
    return Proof(book, proofed, tuple(findings), found.sources, Left(now, rests=found.rests))


def _without_sums(findings: Iterable[Finding], book: Book) -> Iterator[Finding]:
    """What rests on no settings and no pantry: of these one could not be read, and what rests on it is not known."""
    return (one for one in findings if one.rule in (READING.name, SCHEMA.name) or one in book.unsound)


def _proofed(
    recipes: Mapping[str, Computed],
    checked: Mapping[str, Checked],
    identities: Mapping[str, str],
    findings: Iterable[Finding],
) -> Iterator[Proofed]:
    """Each recipe with what was found in its file and in that of its batches."""
    by_file: dict[str, list[Finding]] = {}
    for finding in findings:
        by_file.setdefault(finding.place.file, []).append(finding)
    for slug, one in recipes.items():
        facts, path = checked[slug].facts, one.file.file
        others = [by_file[file] for file in facts.batch_files if file != path and file in by_file]
        found = (*by_file.get(path, ()), *chain.from_iterable(others))
        yield Proofed(slug, one, facts, identities[slug], found)


def _own_words(claims: str | None) -> tuple[Own, list[Finding]]:
    """What a book adds to the standard list of claim words, and what it silences, by the text of its file."""
    return (Own(), []) if claims is None else read_own(claims, CLAIMS)


def _words(own: Own) -> Words:
    """The claim words that a book looks for, and those that it looks away from."""
    standard = standard_words()
    return Words(own.over(standard), standard.only(own.silenced) if own.silenced else None)
