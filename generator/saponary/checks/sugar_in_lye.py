"""sugar-in-lye: milk, honey or another reducing sugar put straight into the lye."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.about import placed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding
from saponary.reading.tree import Path


def check(computed: Computed) -> Iterator[Finding]:
    pantry = computed.pantry
    for path, what, stage in computed.liquids():
        entry = pantry.liquid(what)
        if stage == "lye" and entry is not None and "carbon-monoxide" in entry.hazards:
            yield computed.finding(
                RULE.name,
                (*path, "at"),
                f"{what} holds sugars that hot lye turns to carbon monoxide",
                _HINT,
                "warning",
                about=placed(what, _portion(computed, path)),
            )
    stages = {(a.id, a.portion): a.stage for a in computed.resolved.formula.additions}
    for path, what, portion in computed.additions():
        if stages.get((what, portion)) == "lye" and "carbon-monoxide" in pantry.additions[what].hazards:
            yield computed.finding(
                RULE.name,
                (*path, "what"),
                f"{what} holds sugars that hot lye turns to carbon monoxide",
                _HINT,
                "warning",
                about=placed(what, portion),
            )


def _portion(computed: Computed, path: Path) -> str | None:
    """The portion that a liquid is written in."""
    index = path[1] if path[0] == "portions" else None
    return computed.model.portions[index].name if isinstance(index, int) else None


_HINT = "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel"

RULE = Rule(
    "sugar-in-lye",
    "danger",
    "Caustic solution reacts with reducing sugars (milk, honey, whey, fruit) and can give off carbon "
    "monoxide. Put them in at trace, or work frozen, slowly and in moving air.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="ingredient",
)
