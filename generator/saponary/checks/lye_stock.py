"""lye-stock: a stock that brings more water than the lye is to have, or that does not stay dissolved."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.lye.alkali import Weights
from saponary.lye.formula import Metal
from saponary.lye.solubility import strongest
from saponary.lye.stock import from_stock, holds
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

ROOM = 20.0
"""°C of the place where a stock stands, where nothing is said: a room (common practice, no source)."""


def check(computed: Computed) -> Iterator[Finding]:
    formula, figures = computed.resolved.formula, computed.figures
    weights, own = figures.weights, computed.model.lye_stock
    drawn = from_stock(weights, figures.water.plain, formula.stock)
    path: Path = ("lye-stock",) if own is not None else ()
    if drawn.beside < 0 < drawn.sodium + drawn.potassium and figures.water.plain >= 0:
        yield computed.finding(
            RULE.name,
            path,
            f"the stock brings {computed.weight(drawn.water)} of water, and there is room for {computed.weight(figures.water.plain)} beside what else brings water",
            "use a stronger stock, give the lye more water, or write lye-stock: 0 % and weigh it dry",
            key=own is not None,
        )
    kept = own or computed.settings.lye_stock
    coldest = kept.coldest.celsius if kept is not None and kept.coldest is not None else ROOM
    if drawn.sodium > 0 and formula.stock.sodium is not None:
        yield from _dissolved(computed, path, "sodium", formula.stock.sodium, coldest)
    if drawn.potassium > 0 and formula.stock.potassium is not None:
        yield from _dissolved(computed, path, "potassium", formula.stock.potassium, coldest)


def _dissolved(
    computed: Computed, path: Path, metal: Metal, strength: float, celsius: float
) -> Iterator[Finding]:
    if holds(metal, strength, celsius):
        return
    most = strongest(Weights(1.0, 0.0) if metal == "sodium" else Weights(0.0, 1.0), celsius)
    yield computed.finding(
        RULE.name,
        path,
        f"{show(100 * strength, 1)} % of {metal} hydroxide does not stay dissolved at {show(celsius, 1)} °C, where water holds {show(100 * most, 1)} %",
        "keep a weaker stock or a warmer place; what has settled out is lacking in what is weighed",
        key=bool(path),
    )


RULE = Rule(
    "lye-stock",
    "danger",
    "A stock solution of lye is weighed with its water. The stock must be at least as strong as the lye"
    " it is thinned to, and no stronger than water can hold at the coldest place where you keep it.",
    recipe=check,
)
