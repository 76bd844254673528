"""mould-fill: more batter than the mould holds, or far less."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.lye import mould as geometry
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

LEAST = 0.5
"""A mould less full than this is likely another mould: common practice, no source."""

_NOISE = 1e-6


def check(computed: Computed) -> Iterator[Finding]:
    resolved = computed.resolved
    if resolved.mould is not None:
        path: Path = ("oils", "fill") if computed.model.oils.fill is not None else ("mould",)
        yield from _held(computed, path, resolved.mould, computed.figures.loaf_ml, resolved.formula)
    for index, size in enumerate(computed.resolved.sizes):
        mould = computed.pantry.moulds.get(size.name)
        if mould is not None:
            yield from _held(computed, ("sizes", index), mould, weigh(size.formula).loaf_ml, size.formula)


def _held(
    computed: Computed, path: Path, mould: geometry.Mould, batter: float, formula: Formula
) -> Iterator[Finding]:
    room = geometry.millilitres(mould)
    if room <= 0:
        return
    fits = f"{show(formula.oils_grams * room / batter, 0)} g of oils fill it to the rim" if batter > 0 else ""
    told = f"{show(batter, 0)} ml of batter go into a mould of {show(room, 0)} ml"
    if batter > room * (1.0 + _NOISE):
        hint = f"{fits}: make less, or take a mould that holds {show(batter, 0)} ml and head room"
        yield computed.finding(RULE.name, path, f"{told}, which runs over", hint, "error")
    elif batter < LEAST * room:
        yield computed.finding(
            RULE.name, path, f"{told}, which is {show(100 * batter / room, 0)} % of it", fits, "warning"
        )


RULE = Rule(
    "mould-fill",
    "danger",
    "Batter that runs over a rim is caustic and hot. A mould that would be less than half full is likely not the "
    "one that was meant (common practice, no source).",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
)
