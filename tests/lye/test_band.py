"""The superfat's likely and worst reach, by hand."""

from __future__ import annotations

from math import sqrt

import pytest

from saponary.lye.band import bands
from saponary.lye.formula import Oil

KOH = 56.1056
OLIVE, COCONUT = Oil("olive", 600.0, 190.0, 184.0, 196.0), Oil("coconut", 400.0, 256.0, 248.0, 265.0)


def fat(value: float, moles: float) -> float:
    return 1.0 - moles / (value / 1000.0 / KOH)


def test_likely_is_the_root_of_squares_and_worst_the_sum() -> None:
    """Middle 600 x 190 + 400 x 256 = 216400; below 3600 and 3200, above 3600 and 3600."""
    found = bands((OLIVE, COCONUT), 3.6)
    assert found.likely.low == pytest.approx(fat(216400 - sqrt(3600**2 + 3200**2), 3.6), abs=1e-6)
    assert found.likely.high == pytest.approx(fat(216400 + sqrt(2 * 3600**2), 3.6), abs=1e-6)
    assert found.worst.low == pytest.approx(fat(216400 - 6800, 3.6), abs=1e-6)
    assert found.worst.high == pytest.approx(fat(216400 + 7200, 3.6), abs=1e-6)


def test_one_oil_on_two_lines_is_one_oil() -> None:
    half = Oil("olive", 300.0, 190.0, 184.0, 196.0)
    assert bands((half, half), 1.9) == bands((OLIVE,), 1.9)
    assert bands((OLIVE,), 1.9).likely == bands((OLIVE,), 1.9).worst


def test_a_range_that_does_not_hold_the_value_reaches_nowhere() -> None:
    odd = Oil("olive", 600.0, 190.0, 192.0, 188.0)
    assert bands((odd,), 1.9).worst.low == bands((odd,), 1.9).worst.high
