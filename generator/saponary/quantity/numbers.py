"""Weights as they go on the scale, rounded by the one rule, once."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from saponary.quantity.rounding import show, to_step
from saponary.quantity.units import MASS

OUNCE = float(MASS["oz"])
WeightUnit = Literal["g", "oz"]
"""What a book is kept in."""
_ROUGH = 0.10
_IN_OUNCES = {"g": ("oz", 1 / OUNCE, 1), "kg": ("lb", 1000 / float(MASS["lb"]), 0), "g/kg": ("%", 0.1, 1)}
"""What a unit of a book kept in grams is in one kept in ounces, what one of it is there, and the decimals it takes
more for about the same precision; a weight below an ounce takes another."""


def in_book_units(value: float, decimals: int, unit: str, book: WeightUnit) -> tuple[float, int, str]:
    """A figure in grams, kilograms or grams for a kilogram, in the units of the book; any other as it is."""
    if book == "g" or unit not in _IN_OUNCES:
        return value, decimals, unit
    other, factor, more = _IN_OUNCES[unit]
    small = other == "oz" and 0 < abs(value * factor) < 1
    return value * factor, decimals + more + small, other


def weight(grams: float, decimals: int, book: WeightUnit) -> str:
    """A weight as text, such as `139.8 g` or `4.93 oz`."""
    value, decimals, unit = in_book_units(grams, decimals, "g", book)
    return f"{show(value, decimals)} {unit}"


def is_in(unit: str, book: WeightUnit) -> bool:
    """Whether a weight in this unit is one in the units of the book."""
    return (unit in ("oz", "lb")) == (book == "oz")


def step_text(grams: float, book: WeightUnit) -> str:
    """A scale's step as text, without idle zeros."""
    scale = Scale(grams, book)
    return f"{show(scale.step_shown, 3).rstrip('0').rstrip('.')} {scale.unit}"


def rate(grams_a_kilogram: float, decimals: int, book: WeightUnit) -> str:
    """A rate of an addition as text, such as `8 g/kg` or `0.8 %`, without idle zeros."""
    value, decimals, unit = in_book_units(grams_a_kilogram, decimals, "g/kg", book)
    number = show(value, decimals)
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {unit}"


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
    unit: WeightUnit

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
