"""titles: two recipes under one title."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding


def check(context: ProofContext) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for computed in context.recipes.values():
        title = computed.model.title.casefold()
        if title in first:
            message = f"{first[title]} has the same title"
            yield computed.finding(
                RULE.name, ("title",), message, "give each recipe its own title", "warning"
            )
        first.setdefault(title, computed.file.file)


RULE = Rule(
    "titles",
    "sense",
    "Recipes are told apart by their titles: in the index, on a shelf, on paper.",
    book=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
