"""Volumes: lye solution by its strength, oils and additions by their own densities.

NaOH solution at 20 °C: International Critical Tables, vol. III, as reprinted in Perry's
Handbook (second-hand; 20 and 30 % from memory). KOH solution at 15 °C: from memory.
The volumes are added; contraction and air are left out, some 1 to 2 % (from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from saponary.lye.alkali import Weights
from saponary.lye.formula import Addition, Liquid, Oil

OIL_DENSITY = 0.92
"""g/ml, where an oil's own is not known (from memory: oils lie at 0.91 to 0.93 at 20 °C)."""

LIQUID_DENSITY = 1.0
ADDITION_DENSITY = 1.0

_NAOH_SOLUTION = (
    (0.00, 0.9982), (0.20, 1.2191), (0.24, 1.2629), (0.28, 1.3064), (0.30, 1.3279), (0.32, 1.3490),
    (0.36, 1.3900), (0.40, 1.4300), (0.44, 1.4685), (0.48, 1.5065), (0.50, 1.5253),
)  # fmt: skip
_KOH_SOLUTION = ((0.00, 0.9991), (0.30, 1.2905), (0.40, 1.3991), (0.50, 1.5143))


def between(table: Sequence[tuple[float, float]], x: float) -> float:
    """Linear between the table's points, and along its end pieces beyond them."""
    i = min(max(bisect_right([p[0] for p in table], x), 1), len(table) - 1)
    (x0, y0), (x1, y1) = table[i - 1], table[i]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def naoh_solution(strength: float) -> float:
    """g/ml at 20 °C of an NaOH solution of this mass fraction."""
    return between(_NAOH_SOLUTION, strength)


def koh_solution(strength: float) -> float:
    """g/ml at 15 °C of a KOH solution of this mass fraction."""
    return between(_KOH_SOLUTION, strength)


def lye_millilitres(weights: Weights, water: float) -> float:
    """Volume of the lye solution; two alkalis count by their shares of the mass."""
    mass = weights.total + water
    if mass <= 0 or weights.total <= 0:
        return max(mass, 0.0)
    strength = weights.total / mass
    sodium = weights.sodium_hydroxide / weights.total
    volume_per_gram = sodium / naoh_solution(strength) + (1 - sodium) / koh_solution(strength)
    return mass * volume_per_gram


def oils_millilitres(oils: Iterable[Oil]) -> float:
    return sum(oil.grams / (oil.density or OIL_DENSITY) for oil in oils)


def liquids_millilitres(liquids: Iterable[Liquid]) -> float:
    return sum(part.grams / (part.density or LIQUID_DENSITY) for part in liquids)


def additions_millilitres(additions: Iterable[Addition]) -> float:
    return sum(part.grams / (part.displaces or ADDITION_DENSITY) for part in additions)
