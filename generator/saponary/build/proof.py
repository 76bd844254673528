"""Proof: read the book, compute every recipe, check everything. Writes nothing."""

from __future__ import annotations

import gc
from collections.abc import Callable, Generator, Iterable, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from operator import itemgetter
from pathlib import Path

from saponary.assets.store import Store
from saponary.book.computed import Computed, compute_all
from saponary.book.identity import Identities
from saponary.book.library import CLAIMS, Book, read_book
from saponary.book.proofed import Proofed
from saponary.book.standing import held, standing
from saponary.book.status import status
from saponary.build.history import Formulas, formulas_lacking
from saponary.checks.rule import ProofContext
from saponary.checks.run import check
from saponary.reading.files import Folder
from saponary.reading.findings import Finding, has_errors
from saponary.words.reader import Own, read_own
from saponary.words.standard import standard as standard_words


@dataclass(frozen=True)
class Proof:
    """A whole book, proofed: recipes that could be computed, and every finding."""

    book: Book
    recipes: tuple[Proofed, ...]
    findings: tuple[Finding, ...]
    identities: Identities = field(default_factory=Identities, compare=False)

    @property
    def failed(self) -> bool:
        return has_errors(self.findings)


def prove(root: Path, store: Store | None = None, workers: int | None = 1) -> Proof:
    """Read and check the book in `root`, with several workers (None for as many as there are processors).

    What `store` keeps of a recipe's findings is not looked for again.
    """
    with uncollected():
        return prove_book(read_book(Folder(root)), formulas_lacking, store, workers, date.today())


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
    store: Store | None = None,
    workers: int | None = 1,
    today: date | None = None,
) -> Proof:
    """Compute and check a book that has been read; pure but for `earlier`, which finds formulas of old batches.

    No batch may be recorded for a day after `today`, by the clock; None holds none to it.

    Every recipe is computed before any is checked, since the photos of one recipe's
    batches are evidence for the colours of another.
    """
    computed, pantry, faults = compute_all(book)
    found = earlier(book, computed.values())
    computed = {slug: replace(one, poured_to=found.get(slug, {})) for slug, one in computed.items()}
    book = replace(book, pantry=pantry)
    own, own_faults = _words(book)
    standard = standard_words()
    context = ProofContext(
        book=book,
        recipes=computed,
        words=own.over(standard),
        silenced=standard.only(own.silenced) if own.silenced else None,
        silences=own.silences,
        today=today,
    )
    identities = Identities()
    findings = check(context, (*book.findings, *faults, *own_faults), identities, store, workers)
    by_file = _by_file(findings)
    proofed = tuple(_of_one(one, by_file) for one in computed.values())
    of_recipes = [waiver for one in computed.values() for waiver in one.file.waived()]
    book = replace(book, waived=(*of_recipes, *book.waived, *own.silences.values()))
    return Proof(book, proofed, tuple(sorted(set(findings), key=Finding.sort_key)), identities)


def _by_file(findings: Iterable[Finding]) -> dict[str, list[tuple[int, Finding]]]:
    """The findings in each file, with where they stand among all."""
    found: dict[str, list[tuple[int, Finding]]] = {}
    for at, one in enumerate(findings):
        found.setdefault(one.place.file, []).append((at, one))
    return found


def _of_one(one: Computed, findings: Mapping[str, Sequence[tuple[int, Finding]]]) -> Proofed:
    """A recipe with what was found in its file and in that of its batches."""
    files = {one.file.file, *(record.file for record in one.batches)}
    own = sorted((each for file in files for each in findings.get(file, ())), key=itemgetter(0))
    found = tuple(dict.fromkeys(f for _, f in own))
    back = [batch.lot for batch, _ in held(one)]
    batches = [record.batch for record in one.batches if not standing(record.batch, one).astray]
    return Proofed(one, status(one.model, batches, one.fingerprint, one.settings, back), found)


def _words(book: Book) -> tuple[Own, list[Finding]]:
    """What the book adds to the standard list of claim words, and what it silences."""
    return (Own(), []) if book.own_claims is None else read_own(book.own_claims, CLAIMS)
