"""Water: three conventions, and what must be weighed once other liquids have brought theirs.

All three count the alkali as weighed. With L alkali, W water, O oils: lye strength is
L/(L+W), water to lye is W/L, water of oils is W/O.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from saponary.lye.formula import LATE, Addition, Liquid, Water


def grams(water: Water, alkali: float, oils: float) -> float:
    """Grams of water, all sources together, for so much alkali as weighed and oils."""
    if water.convention == "lye-strength":
        return alkali * (1 - water.value) / water.value
    if water.convention == "to-lye":
        return alkali * water.value
    return oils * water.value


def as_convention(convention: str, total: float, alkali: float, oils: float) -> float:
    """The same water by another convention: a strength, a ratio or a share of the oils."""
    if convention == "lye-strength":
        return alkali / (alkali + total) if alkali + total > 0 else 0.0
    if convention == "to-lye":
        return total / alkali if alkali > 0 else 0.0
    return total / oils if oils > 0 else 0.0


class Sources(NamedTuple):
    """Where the water comes from, in grams.

    `dissolving` is the water the alkali is dissolved in: plain water, and the water of what
    goes into the lye before it cools. `plain` below zero means that liquids and additions
    bring too much.
    """

    total: float
    plain: float
    liquids: float
    additions: float
    dissolving: float

    @property
    def brought(self) -> float:
        """Grams that liquids and solutions among the additions bring."""
        return self.liquids + self.additions


def water_of(parts: Iterable[Liquid | Addition]) -> float:
    """Grams of water in liquids, and in additions that are stirred in."""
    return sum(part.grams * part.water for part in parts if part.stage != "pour")


def sources(total: float, liquids: Sequence[Liquid], additions: Sequence[Addition]) -> Sources:
    """Split the water of the lye into plain water and what liquids and additions bring.

    What goes in once the alkali is spent stands in for none of it.
    """
    wet = water_of(q for q in liquids if q.stage not in LATE)
    solutions = water_of(a for a in additions if a.stage not in LATE)
    plain = total - wet - solutions
    with_lye = water_of(q for q in liquids if q.stage == "lye") + water_of(
        a for a in additions if a.stage == "lye" and not a.cooled
    )
    return Sources(total, plain, wet, solutions, plain + with_lye)


def strength(alkali: float, water_grams: float) -> float:
    """Mass fraction of alkali in alkali and water; 1 where no water is left to dissolve it in."""
    if alkali <= 0:
        return 0.0
    return alkali / (alkali + max(0.0, water_grams))
