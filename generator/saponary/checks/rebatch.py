"""rebatch: soap of an earlier lot that this book does not have, or that was not tested clean."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.standing import standings
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.tree import Path
from saponary.schema.blend import SoapPart

_TEST = "test that lot for free alkali and record the test; until then keep its soap out of any other"


def melted(computed: Computed) -> Iterator[Mention]:
    for part in computed.model.soap:
        yield Mention(part.of, Place(computed.path))


def check(context: ProofContext) -> Iterator[Finding]:
    slugs = [recipe.slug for recipe in context.book.recipes]
    for computed in (context.recipes[slug] for slug, soap in context.mentions[RULE.name].items() if soap):
        for index, part in enumerate(computed.model.soap):
            path: Path = ("soap", index)
            other = context.recipes.get(part.of)
            if part.of not in slugs:
                hint = suggest(part.of, slugs, "recipes")
                yield computed.finding(
                    RULE.name, (*path, "of"), f"there is no recipe {part.of!r} in this book", hint
                )
            elif other is None:
                said = f"the recipe {part.of!r} cannot be computed"
                yield computed.finding(RULE.name, (*path, "of"), said, "correct that recipe first")
            else:
                yield from _lot(computed, path, part, other)


def _lot(computed: Computed, path: Path, part: SoapPart, other: Computed) -> Iterator[Finding]:
    """Whether the lot is one of its recipe's, and stands as clean."""
    known = standings(other)
    found = known.get(part.lot)
    if found is None:
        said = f"the recipe {part.of!r} has no lot {part.lot!r}"
        yield computed.finding(RULE.name, (*path, "lot"), said, suggest(part.lot, known, "lots"))
    elif found.held:
        said = f"lot {part.lot} is held back, since it holds free alkali: melting does not take that away"
        yield computed.finding(RULE.name, (*path, "lot"), said, "leave it out")
    elif not found.ready:
        said = f"lot {part.lot} was not tested clean, and no lye here is worked out against what it may hold"
        yield computed.finding(RULE.name, (*path, "lot"), said, _TEST)


RULE = Rule(
    "rebatch",
    "danger",
    "A rebatch weighs no lye, so nothing in it takes up alkali that the soap brings. Only lots of this "
    "book whose last test found none may go into it.",
    mentions=melted,
    book=check,
)
