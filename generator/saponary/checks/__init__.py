"""The rules: one file each, registered by being there.

A rule is a small pure function from a case (one recipe, its figures, its book) to
findings. Every module in this package that has a `RULE` takes part.
"""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from saponary.book.findings import Finding
from saponary.book.library import Book
from saponary.book.waivers import set_aside
from saponary.checks import claims, unchecked
from saponary.checks.rule import Case, Rule
from saponary.words.entries import WordList


@cache
def rules() -> tuple[Rule, ...]:
    """All rules, by name."""
    found = [
        import_module(f"{__name__}.{module.name}").RULE
        for module in pkgutil.iter_modules(__path__)
        if module.name not in ("rule",)
    ]
    return tuple(sorted(found, key=lambda rule: rule.name))


def check(case: Case) -> list[Finding]:
    """Every rule over one recipe, its waivers applied."""
    found = [finding for rule in rules() for finding in rule.check(case)]
    return set_aside(found, case.file.waived(), {rule.name: rule.waivable for rule in rules()})


def check_book(book: Book, words: WordList) -> list[Finding]:
    """What the book says outside its recipes. Each of its files may waive `claims`, and nothing else."""
    found = list(claims.of_the_book(book, words))
    found += unchecked.of_the_book(book)
    kept: list[Finding] = []
    for file in sorted({f.place.file for f in found} | {w.place.file for w in book.waived}):
        kept += set_aside(
            [f for f in found if f.place.file == file],
            [w for w in book.waived if w.place.file == file],
            {rule.name: rule is claims.RULE for rule in rules()},
        )
    return kept
