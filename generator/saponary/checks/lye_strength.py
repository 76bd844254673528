"""lye-strength: a lye stronger than water can hold."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.lye.constants import STRONGEST_LYE
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path


def check(computed: Computed) -> Iterator[Finding]:
    f = computed.figures
    path: Path = ("water",) if computed.model.water is not None else ()
    if f.water.plain < 0:
        path = _first(computed)
        yield computed.finding(
            RULE.name, path, f"{_what(computed)} bring {computed.weight(f.water.brought)} of water, the recipe has {computed.weight(f.water.total)}",
            "use less of them, or more water", key=True,
        )  # fmt: skip
    elif f.lye_strength_dissolved > STRONGEST_LYE:
        yield computed.finding(
            RULE.name, path, f"the lye would dissolve at {show(100 * f.lye_strength_dissolved, 1)} %, more than water can hold{_because(computed)}",
            f"leave at least as much plain water as lye ({computed.weight(f.weights.total)})", key=True,
        )  # fmt: skip


def _because(computed: Computed) -> str:
    """What takes the water that the lye needs."""
    water = computed.figures.water
    if water.brought <= 0:
        return ""
    return f": {_what(computed)} bring {computed.weight(water.brought)} of the water, and {computed.weight(water.plain)} of plain water are left"


def _what(computed: Computed) -> str:
    water = computed.figures.water
    solutions = "additions" if water.additions > 0 else ""
    return "the " + " and ".join(word for word in ("liquids" if water.liquids > 0 else "", solutions) if word)


def _first(computed: Computed) -> Path:
    """The key under which water is brought."""
    model, water = computed.model, computed.figures.water
    if model.liquids and water.liquids > 0:
        return ("liquids",)
    return ("additions",) if model.additions and water.additions > 0 else ("portions",)


RULE = Rule(
    "lye-strength",
    "danger",
    "A lye solution may be at most half alkali by weight, counted with the water that really dissolves it.",
    recipe=check,
)
