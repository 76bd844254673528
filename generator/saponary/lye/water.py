"""Water: three conventions, and what must be weighed once other liquids have brought theirs.

All three count the alkali as weighed. With L alkali, W water, O oils: lye strength is
L/(L+W), water to lye is W/L, water of oils is W/O.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from saponary.lye.formula import Liquid, Water


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


@dataclass(frozen=True)
class Sources:
    """Where the water comes from, in grams.

    `dissolving` is the water the alkali is dissolved in: plain water, and the water of
    liquids that go in with the lye. `plain` below zero means the liquids bring too much.
    """

    total: float
    plain: float
    liquids: float
    dissolving: float


def sources(total: float, liquids: Iterable[Liquid]) -> Sources:
    """Split the water of the lye into plain water and what the liquids bring."""
    parts = tuple(liquids)
    brought = sum(part.grams * part.water for part in parts)
    with_lye = sum(part.grams * part.water for part in parts if part.stage == "lye")
    plain = total - brought
    return Sources(total, plain, brought, plain + with_lye)


def strength(alkali: float, water_grams: float) -> float:
    """Mass fraction of alkali in alkali and water; 1 where no water is left to dissolve it in."""
    if alkali <= 0:
        return 0.0
    return alkali / (alkali + max(0.0, water_grams))
