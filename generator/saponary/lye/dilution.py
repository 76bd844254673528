"""Total fatty matter, the water that thins a paste to so much of it, and the acid for free alkali.

Total fatty matter, as ISO 685 has the term: the fatty matter that is insoluble in water and is got by
splitting soap with a mineral acid; unsaponifiable matter and unsaponified fat count with it (from memory).
"""

from __future__ import annotations

from typing import NamedTuple

from saponary.lye.alkali import demand
from saponary.lye.bar import met
from saponary.lye.constants import GLYCEROL, WATER
from saponary.lye.figures import Figures
from saponary.lye.formula import Formula, Oil


def total_fatty_matter(formula: Formula, figures: Figures) -> float:
    """Grams of it in a batch: of the soap its fatty acids, and all fat that was not split.

    Splitting off a soap's alkali takes up a molecule of water for each ester that was met. Oils
    after the cook, and the fat that liquids and additions bring, count as they are. What ready-made soap brings is not known and not counted.
    """
    shares = met(formula.oils, figures.superfat)
    left_as_it_is = formula.after_cook_grams + figures.liquids_fat
    return sum(_fatty(oil, shares.of(oil)) for oil in formula.oils) + left_as_it_is


def _fatty(oil: Oil, share_met: float) -> float:
    moles = share_met * demand([oil])
    if oil.ester == "acid":
        return oil.grams
    glycerol = moles / 3 * GLYCEROL if oil.ester == "triglyceride" else 0.0
    return oil.grams + moles * WATER - glycerol


class Dilution(NamedTuple):
    """Grams: of total fatty matter, of the paste as it stands, and of the water to add (below zero where
    the paste is thinner already than it is to be)."""

    fatty_matter: float
    paste: float
    water: float

    @property
    def solution(self) -> float:
        """Grams of the finished soap."""
        return self.paste + self.water

    @property
    def share_in_paste(self) -> float:
        """The share of the paste that is total fatty matter."""
        return self.fatty_matter / self.paste if self.paste > 0 else 0.0


def dilution(fatty_matter: float, paste: float, wanted: float) -> Dilution:
    """Thin a paste until `wanted` (a fraction above nought) of it is total fatty matter.

    `paste` is what the pot holds, in grams: less than was weighed in, where water has boiled off.
    """
    return Dilution(fatty_matter, paste, fatty_matter / wanted - paste)


def acid_for(moles: float, takes: float) -> float:
    """Grams of an acid for so many moles of free alkali; it takes `takes` mol per gram."""
    return max(0.0, moles) / takes
