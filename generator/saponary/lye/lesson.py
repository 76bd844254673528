"""The sums of a class: what each batch puts on the scale, what to buy, and how hot a lye gets.

Integral heats of solution of NaOH: Felder and Rousseau, table B.11 (from memory). KOH has no
such table here and is counted at infinite dilution, CRC Handbook (verified), which is more than
it gives in strong solution. Specific heat of a 25 to 40 % solution: 3.5 J/(g·K) (from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import ceil
from typing import Literal, NamedTuple

from saponary.lye.alkali import Weights
from saponary.lye.constants import KOH, NAOH, WATER
from saponary.lye.density import lye_millilitres
from saponary.lye.figures import Figures, weigh
from saponary.lye.formula import Alkali, Formula
from saponary.quantity.rounding import steady
from saponary.quantity.totals import totals

Kind = Literal["oil", "alkali", "water", "liquid", "addition"]

_NAOH_HEAT = ((3.0, 28.87), (4.0, 34.43), (5.0, 37.74), (10.0, 42.51), (20.0, 42.84))
_KOH_HEAT = 57.61
_SPECIFIC_HEAT = 3.5
_ROOM_FOR_LYE = 2.0
"""A jug holds at least twice its lye: common practice, no source."""


class Weighing(NamedTuple):
    """One thing put on the scale for a batch, in grams."""

    kind: Kind
    id: str
    grams: float


class Purchase(NamedTuple):
    """One thing to buy: what the class puts on the scale, the same with the spare, whole packs of
    so many grams, and what is left of them where no spare is used. Without a pack it is bought by weight.
    """

    kind: Kind
    id: str
    needed: float
    wanted: float
    pack: float | None = None
    packs: int = 0

    @property
    def left(self) -> float:
        return self.packs * self.pack - self.needed if self.pack else self.wanted - self.needed


def to_fill(formula: Formula, millilitres: float) -> float:
    """The factor by which a formula fills so much of a mould; every weight scales as its volume."""
    return millilitres / weigh(formula).loaf_ml


def weighings(formula: Formula, figures: Figures, on_scale: Callable[[float], float]) -> tuple[Weighing, ...]:
    """Everything weighed for one batch, each thing once, as it lies on the scale."""
    summed: dict[tuple[Kind, str], float] = totals(
        ((kind, name), on_scale(grams)) for kind, name, grams in _parts(formula, figures) if grams > 0
    )
    return tuple(Weighing(kind, name, grams) for (kind, name), grams in summed.items())


def _parts(formula: Formula, figures: Figures) -> Iterator[tuple[Kind, str, float]]:
    for oil in (*formula.oils, *formula.after_cook):
        yield "oil", oil.id, oil.grams
    yield "alkali", "sodium-hydroxide", figures.weights.sodium_hydroxide
    yield "alkali", "potassium-hydroxide", figures.weights.potassium_hydroxide
    yield "water", "water", figures.water.plain
    for liquid in formula.liquids:
        yield "liquid", liquid.id, liquid.grams
    for addition in formula.additions:
        yield "addition", addition.id, addition.grams


def shopping(
    batches: Iterable[tuple[Sequence[Weighing], int]], spare: float, packs: Mapping[str, float]
) -> tuple[Purchase, ...]:
    """What so many of each batch need together, and the whole packs that hold it with the spare."""
    summed: dict[tuple[Kind, str], float] = totals(
        ((each.kind, each.id), count * each.grams) for batch, count in batches for each in batch
    )
    found: list[Purchase] = []
    for (kind, name), needed in summed.items():
        wanted, pack = needed * (1.0 + spare), packs.get(name)
        found.append(Purchase(kind, name, needed, wanted, pack, _whole(wanted / pack) if pack else 0))
    return tuple(found)


def _whole(count: float) -> int:
    """Whole packs: a part of one is one, the noise of binary sums is none."""
    return ceil(steady(count))


class Rise(NamedTuple):
    """Degrees that a lye warms by where no heat is lost; `at_most` where KOH has a part in it."""

    degrees: float
    at_most: bool


def rise(weights: Weights, alkali: Alkali, water: float) -> Rise:
    """The heat of solution, spread over the whole solution."""
    sodium = weights.sodium_hydroxide * alkali.sodium_purity / NAOH
    potassium = weights.potassium_hydroxide * alkali.potassium_purity / KOH
    mass = weights.total + water
    if sodium + potassium <= 0 or water <= 0:
        return Rise(0.0, False)
    diluted = water / WATER / (sodium + potassium)
    kilojoules = sodium * _naoh_heat(diluted) + potassium * _KOH_HEAT
    return Rise(1000.0 * kilojoules / (mass * _SPECIFIC_HEAT), potassium > 0)


def _naoh_heat(moles: float) -> float:
    """kJ per mol of NaOH in so many moles of water; beyond the table's ends, its ends."""
    low, high = _NAOH_HEAT[0], _NAOH_HEAT[-1]
    if moles <= low[0]:
        return low[1]
    if moles >= high[0]:
        return high[1]
    i = bisect_right([point[0] for point in _NAOH_HEAT], moles)
    (x0, y0), (x1, y1) = _NAOH_HEAT[i - 1], _NAOH_HEAT[i]
    return y0 + (y1 - y0) * (moles - x0) / (x1 - x0)


def container(weights: Weights, water: float) -> float:
    """Millilitres that the jug for a lye must hold, to the next full 100 ml."""
    room = _ROOM_FOR_LYE * lye_millilitres(weights, water)
    return 100.0 * ceil(steady(room / 100.0))
