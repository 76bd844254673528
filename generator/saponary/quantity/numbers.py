"""Weights as they go on the scale, and numbers as text. Rounded by the one rule, once."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from saponary.quantity.rounding import show, to_step
from saponary.quantity.units import MASS

OUNCE = float(MASS["oz"])
_ROUGH = 0.10


def minus(text: str) -> str:
    """A minus sign for a hyphen."""
    return text.replace("-", "−")


def percent(fraction: float, decimals: int = 1) -> str:
    return minus(f"{show(100 * fraction, decimals)} %")


def tight(text: str) -> str:
    """Kept on one line."""
    return text.replace(" ", "\u00a0")


def grams(value: float, decimals: int = 1) -> str:
    return minus(f"{show(value, decimals)} g")


def short(value: float, most: int = 1) -> str:
    """A number without idle zeros: 90, 22.5."""
    text = show(value, most)
    return minus(text.rstrip("0").rstrip(".") if "." in text else text)


@dataclass(frozen=True)
class Weighed:
    """One weight for the bench: as text in the book's unit and in the other, and in grams as weighed."""

    main: str
    beside: str
    grams: float
    note: str = ""


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
        if value > 0 and abs(on_scale - value) > _ROUGH * value:
            fine = self._finer(value)
            return Weighed(
                self._main(fine, fine=True),
                self._beside(fine),
                fine,
                f"finer than this scale's step of {self.step_text}",
            )
        return Weighed(self._main(on_scale), self._beside(on_scale), on_scale)

    @property
    def step_text(self) -> str:
        return f"{short(self.step / (1.0 if self.unit == 'g' else OUNCE), 3)} {self.unit}"

    def _finer(self, value: float) -> float:
        step = self.step
        while step > 1e-3 and abs(to_step(value, step) - value) > 0.02 * value:
            step /= 10
        return to_step(value, step)

    def _main(self, value: float, *, fine: bool = False) -> str:
        if self.unit == "g":
            decimals = max(_decimals(self.step), _decimals(value) if fine else 0)
            return show(value, min(decimals, 3))
        return show(value / OUNCE, 3 if fine else min(max(_decimals(self.step / OUNCE), 1), 2))

    def _beside(self, value: float) -> str:
        return show(value / OUNCE, 2) if self.unit == "g" else show(value, 1)


def _decimals(value: float) -> int:
    exponent = Decimal(f"{value:.6g}").normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0
