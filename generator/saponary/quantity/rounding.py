"""The one rounding rule: half away from zero, on the shortest decimal that names the number.

Figures are carried in full through the engine and rounded once, where they are shown,
stated or put on a scale. Twelve significant figures are kept first, so that a sum which
is 138.75 on paper and 138.74999999999997 in binary rounds as it does on paper.

What another program is to read is rounded too, to nine figures (`told`, `as_decimal`): the last bits of a double
differ between processors and libraries, and the same book is the same bytes on all of them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from functools import cache

FIGURES = 9
"""Significant figures, and decimals, that leave the program at most: more than any scale weighs."""


_PLAIN, _NEAR_HALF = 1e9, 1e-3
"""Of figures below the one (in units of their last decimal) the noise of the last bits is less than half of the
other: where none is so near to a half, every rule rounds them alike, and the quickest is taken."""


def steady(value: float) -> float:
    """`value` without the noise of its last bits: for what is rounded up, or told from a limit."""
    return float(f"{value:.12g}")


def to_figures(value: float, figures: int = FIGURES) -> Decimal:
    """`value` to so many significant figures, and no more than nine decimals, half away from zero."""
    exact = Decimal(f"{value:.12g}")
    least = max(exact.adjusted() - figures + 1, -FIGURES)
    rounded = exact.quantize(Decimal(1).scaleb(least), rounding=ROUND_HALF_UP)
    return rounded.copy_abs() if rounded.is_zero() else rounded


def told(value: float) -> float:
    """A figure as another program is told it, as a number."""
    return float(to_figures(value))


def as_decimal(value: float, figures: int = FIGURES) -> str:
    """The same as text: in decimals, with no zero at its end."""
    text = f"{to_figures(value, figures):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def to_decimals(value: float, decimals: int) -> Decimal:
    """`value` to so many decimals, half away from zero."""
    exact = Decimal(f"{value:.12g}")
    return exact.quantize(_least(decimals), rounding=ROUND_HALF_UP)


@cache
def _least(decimals: int) -> Decimal:
    return Decimal(1).scaleb(-decimals)


def to_step(value: float, step: float) -> float:
    """`value` to the nearest multiple of `step` (a scale's least count), half away from zero."""
    if step <= 0:
        return value
    least = Decimal(str(step))
    count = (Decimal(f"{value:.12g}") / least).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    return float(count * least)


def divided(whole: float, parts: Sequence[float], step: float) -> list[float]:
    """`whole` in proportion to `parts`, each a multiple of `step`, so that they come to `whole` as rounded.

    What rounding down leaves goes to the largest remainders (Hamilton's method). A step of 0 rounds nothing.
    """
    scale = whole / sum(parts)
    exact = [part * scale for part in parts]
    if step <= 0:
        return exact
    counts = [math.floor(part / step + 1e-9) for part in exact]
    left = round(to_step(whole, step) / step) - sum(counts)
    by_rest = sorted(range(len(parts)), key=lambda at: counts[at] - exact[at] / step)
    for at in by_rest[:left]:
        counts[at] += 1
    return [to_step(count * step, step) for count in counts]


def show(value: float, decimals: int) -> str:
    """The figure as text, with no minus sign on a zero."""
    if type(value) is float and 0 <= decimals <= FIGURES:
        scaled = value * 10.0**decimals
        if -_PLAIN < scaled < _PLAIN and abs(scaled % 1.0 - 0.5) > _NEAR_HALF:
            text = f"{value:.{decimals}f}"
            return text[1:] if -0.5 < scaled <= 0 and text[0] == "-" else text
    rounded = to_decimals(value, decimals)
    return f"{rounded.copy_abs() if rounded.is_zero() else rounded:f}"


def show_down(value: float, decimals: int) -> str:
    """The figure as text, never more than it is: for what a label promises."""
    exact = Decimal(f"{value:.12g}")
    return f"{exact.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_DOWN):f}"
