"""fading: the design relies on a colour that will not stay."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.about import placed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.pantry.colour import seen
from saponary.quantity.totals import totals
from saponary.reading.findings import Finding
from saponary.reading.tree import Path


def check(computed: Computed) -> Iterator[Finding]:
    if not computed.model.pour:
        return
    oils: dict[str | None, float] = {p.name: p.oils_grams for p in computed.figures.portions}
    oils[None] = computed.figures.oils
    rates = totals(
        ((each.id, each.portion), 1000.0 * each.grams / oils[each.portion])
        for each in computed.resolved.formula.additions
        if oils[each.portion] > 0
    )
    told: set[tuple[str, str | None]] = set()
    for path, what, portion in computed.additions():
        entry = computed.pantry.additions[what]
        key = (what, portion)
        if entry.colour is None or key in told or rates.get(key, 0.0) <= 0:
            continue
        told.add(key)
        look = seen(entry.colour, rates[key])
        if not look.stays:
            own = " (your own chips)" if look.fresh_chip or look.cured_chip else ""
            change = f"from {look.fresh} to {look.cured}{own}"
            yield _told(computed, (*path, "what"), what, portion, change)
    for path, botanical, portion in _infusions(computed):
        plant = computed.pantry.botanical(botanical)
        if plant is not None and plant.colour is not None and not plant.colour.stays:
            change = f"from {plant.colour.fresh} to {plant.colour.cured}"
            yield _told(computed, path, plant.id, portion, change)


def _told(computed: Computed, path: Path, what: str, portion: str | None, change: str) -> Finding:
    whose = f"the portion {portion!r}" if portion else "the bar"
    return computed.finding(
        RULE.name,
        path,
        f"{what} will not keep its colour: {whose} goes {change}",
        "look at the drawing as cured, and design the pattern for that colour",
        "warning",
        about=placed(what, portion),
    )


def _infusions(computed: Computed) -> Iterator[tuple[Path, str, str | None]]:
    """Botanicals that oils were infused with: path, name, and the portion whose oil it is."""
    for name, part in computed.model.oils.parts.items():
        if part.infused_with is not None:
            yield ("oils", "parts", name, "infused-with"), part.infused_with, None
    for index, portion in enumerate(computed.model.portions):
        for carrier, botanical in portion.infused.items():
            yield ("portions", index, "infused", carrier), botanical, portion.name


RULE = Rule(
    "fading",
    "sense",
    "Plant colours change in alkali and fade in light. The drawing shows the fresh and the cured "
    "colour. Where a pour depends on a colour that fades, you are told before you pour.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="colour",
)
