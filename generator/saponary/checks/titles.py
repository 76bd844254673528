"""titles: two recipes under one title."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.reading.findings import Finding


def title(computed: Computed) -> Iterator[Mention]:
    yield Mention(computed.model.title.casefold(), computed.place(("title",)))


def check(context: ProofContext) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for (one,) in context.mentions[RULE.name].values():
        if one.text in first:
            message = f"{first[one.text]} has the same title"
            yield Finding(RULE.name, "warning", one.place, message, "give each recipe its own title")
        first.setdefault(one.text, one.place.file)


RULE = Rule(
    "titles",
    "sense",
    "Readers find recipes by their titles, in the index, in the shop and on paper. No two may be the same.",
    mentions=title,
    book=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
