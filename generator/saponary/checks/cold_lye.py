"""cold-lye: more alkali than water holds as cold as it is, over ice, over frozen milk, or as the recipe keeps it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.solubility import strongest
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

_ICE = re.compile(r"\b(ice|ice[ -]cubes?|iced|frozen|freeze|slush)\b", re.IGNORECASE)


def check(computed: Computed) -> Iterator[Finding]:
    yield from _over_ice_or_milk(computed)
    yield from _as_it_is_kept(computed)


def _as_it_is_kept(computed: Computed) -> Iterator[Finding]:
    """A lye that is to be colder than it can be and stay clear."""
    warm = computed.model.temperatures
    if warm is None or warm.lye is None:
        return
    most = strongest(computed.figures.weights, warm.lye.celsius)
    if computed.figures.lye_strength_dissolved > most:
        yield computed.finding(
            RULE.name,
            ("temperatures", "lye"),
            f"at {' '.join(warm.lye.text.split())} a lye holds {show(100 * most, 1)} % of this alkali at the most, and this "
            f"one is to be {show(100 * computed.figures.lye_strength_dissolved, 1)} %",
            "some of the alkali falls out as it cools: take more water, or keep the lye warmer",
            "warning",
        )


def _over_ice_or_milk(computed: Computed) -> Iterator[Finding]:
    figures = computed.figures
    most = strongest(figures.weights, 0.0)
    if figures.lye_strength_dissolved <= most:
        return
    path = _over_ice(computed)
    if path is not None:
        yield computed.finding(
            RULE.name,
            path,
            f"over ice a lye holds {show(100 * most, 1)} % of this alkali at the most, and this one is to be "
            f"{show(100 * figures.lye_strength_dissolved, 1)} %",
            "some of the alkali stays undissolved until it warms: take more water, or wait until the lye is clear",
            "warning",
        )


def _over_ice(computed: Computed) -> Path | None:
    """Where the recipe says that its lye is made over ice, or puts into it what must be frozen first."""
    for path, what, stage in computed.liquids():
        entry = computed.pantry.liquid(what)
        if stage == "lye" and entry is not None and "carbon-monoxide" in entry.hazards:
            return (*path, "at")
    for index, step in enumerate(computed.model.steps):
        if step.at in ("before", "lye") and _ICE.search(step.say):
            return ("steps", index, "say")
    return None


RULE = Rule(
    "cold-lye",
    "danger",
    "Water near freezing dissolves far less sodium hydroxide than warm water: 42 g in 100 g at 0 °C, "
    "109 g at 20 °C. Over frozen milk or ice the rest stays undissolved, and goes into the oils as "
    "grains unless you wait. A lye that is left to grow colder than it can be drops some of its alkali too.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
