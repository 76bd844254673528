"""Proof: read the book, compute every recipe, check everything. Writes nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from saponary.book import classes
from saponary.book.computed import Computed, compute_all
from saponary.book.library import CLAIMS, Book, read_book
from saponary.book.status import Status, status
from saponary.checks import check, check_book
from saponary.label.lists import bar
from saponary.reading.files import Folder
from saponary.reading.findings import Finding, Place, has_errors
from saponary.words.entries import WordList
from saponary.words.reader import Own, read_own
from saponary.words.standard import standard as standard_words


@dataclass(frozen=True)
class Proofed:
    """One recipe that could be computed."""

    computed: Computed
    status: Status
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Proof:
    """A whole book, proofed: recipes that could be computed, and every finding."""

    book: Book
    recipes: tuple[Proofed, ...]
    findings: tuple[Finding, ...]

    @property
    def failed(self) -> bool:
        return has_errors(self.findings)


def prove(root: Path) -> Proof:
    """Read and check the book in `root`."""
    return prove_book(read_book(Folder(root)))


def prove_book(book: Book) -> Proof:
    """Compute and check a book that has been read. Pure.

    Every recipe is computed before any is checked, since the photos of one recipe's
    batches are evidence for the colours of another.
    """
    computed, pantry, faults = compute_all(book)
    findings = [*book.findings, *faults]
    book = replace(book, pantry=pantry)
    own_words, faults = _words(book)
    words = own_words.over(standard_words())
    findings += faults
    proofed = [_check(one, words) for one in computed.values()]
    findings += [finding for one in proofed for finding in one.findings]
    findings += _same_titles(proofed)
    findings += _same_lots(book)
    findings += _scraps(book)
    findings += check_book(book, words)
    findings += _classes(book, computed)
    findings += _labels(book, proofed)
    of_recipes = [waiver for one in proofed for waiver in one.computed.file.waived()]
    book = replace(book, waived=(*of_recipes, *book.waived, *own_words.waived))
    return Proof(book, tuple(proofed), tuple(sorted(set(findings), key=Finding.sort_key)))


def _check(one: Computed, words: WordList) -> Proofed:
    told = status(one.model, [r.batch for r in one.batches], one.fingerprint, one.settings.cure)
    return Proofed(one, told, (*one.faults, *check(one, words)))


def _words(book: Book) -> tuple[Own, list[Finding]]:
    """What the book adds to the standard list of claim words, and what it silences."""
    return (Own(), []) if book.own_claims is None else read_own(book.own_claims, CLAIMS)


def _same_titles(proofed: list[Proofed]) -> list[Finding]:
    first: dict[str, str] = {}
    found: list[Finding] = []
    for one in proofed:
        title = one.computed.model.title.casefold()
        if title in first:
            found.append(
                one.computed.finding(
                    "titles",
                    ("title",),
                    f"{first[title]} has the same title",
                    "give each recipe its own title",
                    "warning",
                )
            )
        first.setdefault(title, one.computed.file.file)
    return found


def _same_lots(book: Book) -> Iterator[Finding]:
    """A lot is traced by its name alone, so that two recipes may not share one."""
    first: dict[str, str] = {}
    for slug in sorted(book.batches):
        for record in book.batches[slug]:
            lot = record.batch.lot
            if first.setdefault(lot, slug) != slug:
                message = f"the lot {lot!r} is recorded for {first[lot]!r} too"
                yield record.finding("batches", ("lot",), message, "give each batch of the book its own lot")


def _classes(book: Book, computed: Mapping[str, Computed]) -> Iterator[Finding]:
    slugs = {recipe.slug for recipe in book.recipes}
    built = {slug: one.resolved for slug, one in computed.items()}
    for read in book.classes:
        yield from classes.check(read, slugs, built, book.pantry)


def _labels(book: Book, proofed: list[Proofed]) -> Iterator[Finding]:
    """Labels are measured only where the book has paper for them."""
    grids = book.settings.label_sheets
    if not grids:
        return
    from saponary.views.paper.label_sheet import misfits

    for one in proofed:
        yield from misfits(one.computed, bar(one.computed), book.settings, grids)


def _scraps(book: Book) -> list[Finding]:
    slugs = {recipe.slug for recipe in book.recipes}
    return [
        Finding("scraps", "warning", Place("pantry.yaml"), f"the scrap {a.id!r} is said to be of {a.scrap_of!r}, which is no recipe here",
                "name the recipe it was cut from")
        for a in book.pantry.additions.values()
        if a.scrap_of is not None and a.scrap_of not in slugs
    ]  # fmt: skip
