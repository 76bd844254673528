"""Alkali: what the oils and acids ask for, and what goes on the scale.

One ester group takes one hydroxide, a free fatty acid likewise (ISO 3657 defines the
saponification value as mg of KOH per g). Acids among the additions take their alkali in
full; the superfat is the share of the oils' own demand that is left unmet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saponary.lye.constants import KOH, NAOH
from saponary.lye.formula import LATE, Addition, Alkali, Formula, Liquid, Metal, Oil


def demand(oils: Iterable[Oil]) -> float:
    """Moles of hydroxide that would saponify all of these oils."""
    return sum(oil.grams * oil.saponification_value for oil in oils) / 1000.0 / KOH


def acid(parts: Iterable[Addition | Liquid]) -> float:
    """Moles of hydroxide that acids among these take before any oil does; what goes in late takes none."""
    return sum(part.grams * part.acid for part in parts if part.stage not in LATE)


def base(additions: Iterable[Addition]) -> float:
    """Moles of free hydroxide these additions bring into the batter with them."""
    return sum(part.grams * part.base for part in additions if part.stage != "pour")


def base_most(additions: Iterable[Addition]) -> float:
    """Moles of free hydroxide that these additions bring at the most."""
    return sum(part.grams * max(part.base, part.base_most) for part in additions if part.stage != "pour")


def free(moles: float, additions: Sequence[Addition], liquids: Sequence[Liquid]) -> float:
    """Moles of hydroxide left for the oils: those weighed, and what additions bring, less what acids take."""
    return moles + base(additions) - acid(additions) - acid(liquids)


@dataclass(frozen=True)
class Weights:
    """Alkali as weighed, in grams: purity counted."""

    sodium_hydroxide: float
    potassium_hydroxide: float

    @property
    def total(self) -> float:
        return self.sodium_hydroxide + self.potassium_hydroxide

    def moles(self, alkali: Alkali) -> float:
        """Moles of hydroxide in these weights."""
        return sum(self.moles_of_each(alkali).values())

    def moles_of_each(self, alkali: Alkali) -> dict[Metal, float]:
        """Moles of hydroxide in these weights, by its metal."""
        return {
            "sodium": self.sodium_hydroxide * alkali.sodium_purity / NAOH,
            "potassium": self.potassium_hydroxide * alkali.potassium_purity / KOH,
        }


def weights_for(moles: float, alkali: Alkali) -> Weights:
    """Grams to weigh for so many moles of hydroxide, split by equivalents."""
    return Weights(
        moles * alkali.sodium * NAOH / alkali.sodium_purity,
        moles * alkali.potassium * KOH / alkali.potassium_purity,
    )


class AlkaliShare(NamedTuple):
    """One alkali of a batch: its share of all the equivalents there are, and grams of it per mole."""

    metal: Metal
    share: float
    molar: float


def shares_of(weights: Weights, formula: Formula) -> tuple[AlkaliShare, ...]:
    """The alkalis of a batch, what is weighed and what additions bring taken together."""
    moles = weights.moles_of_each(formula.alkali)
    for part in formula.stirred:
        moles[part.base_of] += part.grams * part.base
    whole = sum(moles.values())
    return tuple(AlkaliShare(m, there / whole, MOLAR[m]) for m, there in moles.items() if there > 0)


def free_alkali(part: Addition | Liquid) -> float:
    """Grams of hydroxide proper that an addition brings into the batter."""
    if isinstance(part, Liquid) or part.stage == "pour":
        return 0.0
    return part.grams * part.base * MOLAR[part.base_of]


MOLAR: Mapping[Metal, float] = {"sodium": NAOH, "potassium": KOH}
"""g/mol of each hydroxide."""

NOISE = 1e-12
"""A superfat nearer to nought than this is nought: sums in binary miss it by some 1e-16."""


def superfat(available: float, asked: float) -> float:
    """Share of the oils' demand left unmet, from moles available to oils and moles asked.

    Below zero alkali is left over; a sum that is nought on paper is nought here.
    """
    left = 1.0 - available / asked if asked > 0 else 0.0
    return left if abs(left) > NOISE else 0.0
