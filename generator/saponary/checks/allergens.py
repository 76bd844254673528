"""allergens: a scent whose sheet is missing, or names what is no allergen of the list."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from saponary.book.computed import Computed
from saponary.book.cured import cured_water
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.label.bar_input import bar_input, scraps_of
from saponary.label.contents import found
from saponary.label.scents import first_uses, scent
from saponary.label.tables import allergens_by_word, folded
from saponary.reading.findings import Finding, suggest
from saponary.reading.tree import Path

_MISSPELT = 0.8
"""So alike that a typing mistake is likelier than another material."""


def check(computed: Computed) -> Iterator[Finding]:
    pantry, water, lookup = computed.pantry, cured_water(computed.settings), scraps_of(computed)
    uses = first_uses(computed.additions(), pantry, lookup, water)
    if not uses:
        return
    bar = found(bar_input(computed), pantry, lookup, water)
    scents = scent(bar, pantry)
    for name in scents.without_sheet:
        yield computed.finding(
            RULE.name, (*uses[name], "what"), f"no supplier sheet says which allergens {name!r} holds",
            "add composition: {…} to it under fragrances: in pantry.yaml, or composition: {} where the sheet "
            "names none", "warning", about=name,
        )  # fmt: skip
    for name, word in scents.unknown:
        yield _unknown(computed, name, word, uses[name])
    for dose in scents.doses:
        if dose.allergen.prohibited:
            yield computed.finding(
                RULE.name, ("title",), f"a scent of this bar holds {dose.allergen.name}, no longer allowed in "
                "cosmetics of the European Union (from memory)", "ask the supplier for a newer scent", "warning",
                about=dose.allergen.name,
            )  # fmt: skip


def _unknown(computed: Computed, name: str, word: str, path: Path) -> Finding:
    known = {folded(each): allergen.name for each, allergen in allergens_by_word().items()}
    alike = max(SequenceMatcher(None, folded(word), each).ratio() for each in known)
    nearest = suggest(folded(word), known, "allergens")
    return computed.finding(
        RULE.name, (*path, "what"), f"the sheet of {name!r} in pantry.yaml names {word!r}, which is not a fragrance "
        "allergen known here", nearest if alike >= _MISSPELT else f"{nearest} If it is not one, take it out",
        "error" if alike >= _MISSPELT else "warning", about=name,
    )  # fmt: skip


RULE = Rule(
    "allergens",
    "label",
    "In the European Union, fragrance allergens above 0.01 % of a bar of soap must be named (Annex III "
    "of Regulation 1223/2009). Only the supplier's sheet says which ones a scent holds. A name that "
    "cannot be read leaves one out.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="scent",
)
