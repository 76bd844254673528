"""Proof: read the book, compute every recipe, check everything. Writes nothing."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from saponary.book import formula, quotes
from saponary.book.catalogue import catalogue
from saponary.book.findings import Finding, Place, has_errors
from saponary.book.library import Book, RecipeFile, read_book
from saponary.book.status import Status, status
from saponary.checks import check
from saponary.checks.rule import Case
from saponary.lye.figures import weigh
from saponary.lye.fingerprint import fingerprint


@dataclass(frozen=True)
class Proofed:
    """One recipe that could be computed."""

    case: Case
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
    return prove_book(read_book(root))


def prove_book(book: Book) -> Proof:
    """Compute and check a book that has been read. Pure."""
    findings = list(book.findings)
    proofed: list[Proofed] = []
    for recipe in book.recipes:
        one, found = _prove_recipe(recipe, book)
        findings += found
        if one is not None:
            proofed.append(one)
    findings += _same_titles(proofed)
    findings += _scraps(book)
    return Proof(book, tuple(proofed), tuple(sorted(set(findings), key=Finding.sort_key)))


def _prove_recipe(recipe: RecipeFile, book: Book) -> tuple[Proofed | None, list[Finding]]:
    found = list(recipe.findings)
    if recipe.model is None:
        return None, found
    built, faults = formula.build(recipe.model, book.settings, book.pantry, recipe.tree, recipe.file)
    found += faults
    if built is None:
        return None, found
    figures = weigh(built.formula)
    mark = fingerprint(built.formula)
    case = Case(
        recipe,
        recipe.model,
        built,
        figures,
        catalogue(figures, built),
        tuple(quotes.in_recipe(recipe)),
        mark,
        book,
    )
    checked = check(case)
    return Proofed(
        case, status(recipe.model, mark, book.settings.cure), tuple(faults + checked)
    ), found + checked


def _same_titles(proofed: list[Proofed]) -> list[Finding]:
    first: dict[str, str] = {}
    found: list[Finding] = []
    for one in proofed:
        title = one.case.model.title.casefold()
        if title in first:
            found.append(
                one.case.finding(
                    "titles",
                    ("title",),
                    f"{first[title]} has the same title",
                    "give each recipe its own title",
                    "warning",
                )
            )
        first.setdefault(title, one.case.file.file)
    return found


def _scraps(book: Book) -> list[Finding]:
    slugs = {recipe.slug for recipe in book.recipes}
    return [
        Finding("scraps", "warning", Place("pantry.yaml"), f"the scrap {a.id!r} is said to be of {a.scrap_of!r}, which is no recipe here",
                "name the recipe it was cut from")
        for a in book.pantry.additions.values()
        if a.scrap_of is not None and a.scrap_of not in slugs
    ]  # fmt: skip
