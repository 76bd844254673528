"""mould-fill: far less batter than the mould holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula
from saponary.lye.mould import Mould, millilitres
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

LEAST = 0.5
"""A mould less full than this is likely another mould: common practice, no source."""


class Filled(NamedTuple):
    """A mould that a recipe names, at `path`: millilitres that it holds, and that go into it."""

    path: Path
    room: float
    batter: float
    full: str
    """The oils that fill it, as text."""

    @property
    def told(self) -> str:
        return f"{show(self.batter, 0)} ml of batter go into a mould of {show(self.room, 0)} ml"

    @property
    def fits(self) -> str:
        return f"{self.full} of oils fill it to the rim"


def filled(computed: Computed) -> Iterator[Filled]:
    """The recipe's mould, and those of its other sizes."""
    resolved = computed.resolved
    if resolved.mould is not None:
        path: Path = ("oils", "fill") if computed.model.oils.fill is not None else ("mould",)
        yield from _filled(path, resolved.mould, computed.figures.loaf_ml, resolved.formula, computed)
    for index, size in enumerate(resolved.sizes):
        mould = computed.pantry.moulds.get(size.name)
        if mould is not None:
            yield from _filled(("sizes", index), mould, weigh(size.formula).loaf_ml, size.formula, computed)


def _filled(
    path: Path, mould: Mould, batter: float, formula: Formula, computed: Computed
) -> Iterator[Filled]:
    room = millilitres(mould)
    if room > 0 and batter > 0:
        yield Filled(path, room, batter, computed.weight(formula.oils_grams * room / batter, 0))


def check(computed: Computed) -> Iterator[Finding]:
    for one in filled(computed):
        if one.batter < LEAST * one.room:
            message = f"{one.told}, which is {show(100 * one.batter / one.room, 0)} % of it"
            yield computed.finding(RULE.name, one.path, message, one.fits, "warning")


RULE = Rule(
    "mould-fill",
    "sense",
    "A mould that would be less than half full is probably not the one you meant (common practice, no "
    "source).",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
)
