"""Weights as they go on the scale, rounded by the one rule, once."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from saponary.quantity.rounding import show, to_step
from saponary.quantity.units import MASS

OUNCE = float(MASS["oz"])
_ROUGH = 0.10


@dataclass(frozen=True)
class Weighed:
    """One weight for the bench: in grams as weighed, and as shown in the book's unit and in the other.

    `fine` where it is too small for the scale's step and is given finer.
    """

    grams: float
    shown: float
    decimals: int
    shown_beside: float
    decimals_beside: int
    fine: bool = False

    @property
    def main(self) -> str:
        return show(self.shown, self.decimals)

    @property
    def beside(self) -> str:
        return show(self.shown_beside, self.decimals_beside)


@dataclass(frozen=True)
class Scale:
    """The maker's scale: its step in grams, and the unit the book is kept in."""

    step: float
    unit: Literal["g", "oz"]

    @property
    def beside(self) -> str:
        return "oz" if self.unit == "g" else "g"

    def weigh(self, value: float) -> Weighed:
        """Rounded to the step. A weight too small for the step is given finer, and says so."""
        on_scale = to_step(value, self.step)
        fine = value > 0 and abs(on_scale - value) > _ROUGH * value
        return self._weighed(self._finer(value) if fine else on_scale, fine)

    @property
    def step_shown(self) -> float:
        """The step in the book's unit."""
        return self.step / (1.0 if self.unit == "g" else OUNCE)

    def _finer(self, value: float) -> float:
        step = self.step
        while step > 1e-3 and abs(to_step(value, step) - value) > 0.02 * value:
            step /= 10
        return to_step(value, step)

    def _weighed(self, value: float, fine: bool) -> Weighed:
        if self.unit == "g":
            decimals = max(_decimals(self.step), _decimals(value) if fine else 0)
            return Weighed(value, value, min(decimals, 3), value / OUNCE, 2, fine)
        decimals = 3 if fine else min(max(_decimals(self.step / OUNCE), 1), 2)
        return Weighed(value, value / OUNCE, decimals, value, 1, fine)


def _decimals(value: float) -> int:
    exponent = Decimal(f"{value:.6g}").normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0
