"""usual-rate: an addition outside its usual rate."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.about import placed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.numbers import rate as rate_text
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

_SLACK = 1.001


def check(computed: Computed) -> Iterator[Finding]:
    oils: dict[str | None, float] = {p.name: p.oils_grams for p in computed.figures.portions}
    oils[None] = computed.figures.oils
    units = computed.settings.units
    totals: dict[tuple[str, str | None], tuple[Path, float]] = {}
    for path, what, portion in computed.additions():
        grams = sum(
            a.grams for a in computed.resolved.formula.stirred if a.id == what and a.portion == portion
        )
        totals.setdefault((what, portion), (path, grams))
    for (what, portion), (path, grams) in totals.items():
        entry = computed.pantry.additions[what]
        usual = entry.usual
        into = oils[portion]
        if usual is None or into <= 0 or grams <= 0:
            continue
        rate = 1000.0 * grams / into
        if entry.cap is not None and rate > entry.cap:
            continue
        if rate > usual[1] * _SLACK or rate < usual[0] / _SLACK:
            side = "more" if rate > usual[1] else "less"
            yield computed.finding(
                RULE.name, (*path, "amount"), f"{what} at {rate_text(rate, 1, units)} of oils is {side} than usual",
                f"usual is {rate_text(usual[0], 2, units).split()[0]} to {rate_text(usual[1], 2, units)} of oils", "warning",
                about=placed(what, portion),
            )  # fmt: skip


RULE = Rule(
    "usual-rate",
    "sense",
    "Additions and colourants have a usual rate for each kilogram of the oils they go into (common "
    "practice, no source, or the pantry's own). Outside it a typing mistake is likely. What is set in "
    "or sprinkled at the pour is not rated.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="addition",
)
