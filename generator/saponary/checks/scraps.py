"""scraps: scrap that is said to be of a recipe which the book does not hold."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.listed import IN_THE_PANTRY, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, Place, suggest


def check(context: ProofContext) -> Iterator[Finding]:
    slugs = {recipe.slug for recipe in context.book.recipes}
    for addition in context.book.pantry.additions.values():
        if addition.scrap_of is not None and addition.scrap_of not in slugs:
            message = f"the scrap {addition.id!r} is said to be of {addition.scrap_of!r}, which is not a recipe here"
            hint = f"name the recipe it was cut from; {suggest(addition.scrap_of, slugs, 'recipes')}"
            yield Finding(RULE.name, "warning", Place("pantry.yaml"), message, hint, addition.id)


RULE = Rule(
    "scraps",
    "sense",
    "The ingredients of another recipe's scrap are known only where that recipe is in the book.",
    book=check,
    kinds=WARNING,
    waivable=IN_THE_PANTRY,
    each="scrap",
)
