"""usual-water: a lye that can be made, and is stronger or weaker than is usual."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.constants import STRONG_LYE, STRONGEST_LYE, WEAK_LYE
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    strength, dissolving = computed.figures.lye_strength, computed.figures.lye_strength_dissolved
    path = ("water",) if computed.model.water is not None else ()
    if STRONG_LYE < dissolving <= STRONGEST_LYE:
        yield computed.finding(
            RULE.name,
            path,
            f"a lye solution of {show(100 * dissolving, 1)} % heats up and traces fast",
            _HINT,
            "warning",
            key=True,
        )
    elif strength < WEAK_LYE and not computed.model.by.cooks:
        yield computed.finding(
            RULE.name,
            path,
            f"a lye solution of {show(100 * strength, 1)} % is weak: the batter may separate or stay soft",
            _HINT,
            "warning",
            key=True,
        )


_HINT = "usual is 30 to 35 %, such as water: {lye-strength: 33 %}"

RULE = Rule(
    "usual-water",
    "sense",
    "A lye solution of 30 to 35 % is usual. Above 40 %, counted with the water that dissolves it, it "
    "heats up and traces fast. Below 25 %, counted with all the water of the recipe, the batter may "
    "separate or stay soft (common practice, no source).",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
