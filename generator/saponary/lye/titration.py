"""Free caustic alkali by titration, as ISO 456 and ISO 684 state it: per cent of a hydroxide by mass.

With V ml of an acid of N mol/l on m grams of soap: V·N·39.997/(10·m) per cent of sodium hydroxide,
V·N·56.105/(10·m) of potassium hydroxide. How the sample is dissolved and the end seen is theirs to say.
"""

from __future__ import annotations

from typing import NamedTuple

from saponary.lye.alkali import MOLAR
from saponary.lye.formula import Metal


class Titration(NamedTuple):
    """What was measured: ml of acid used, its mol of acid groups per litre, grams of soap dissolved."""

    millilitres: float
    normality: float
    sample: float
    metal: Metal = "sodium"

    @property
    def free_caustic(self) -> float:
        """The mass fraction of free hydroxide in the soap."""
        return self.millimoles * MOLAR[self.metal] / 1000.0 / self.sample

    @property
    def millimoles(self) -> float:
        """Of free hydroxide in the sample."""
        return self.millilitres * self.normality

    def moles_in(self, grams: float) -> float:
        """Moles of free hydroxide in so many grams of the same soap."""
        return self.millimoles / 1000.0 * grams / self.sample
