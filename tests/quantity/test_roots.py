"""The search for a root, against scipy's Brent search."""

from __future__ import annotations

from collections.abc import Callable
from math import atan, expm1

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from saponary.quantity.roots import rising_root

RISING: list[Callable[[float], float]] = [
    lambda x: x,
    lambda x: x**3,
    lambda x: atan(30 * x),
    lambda x: expm1(8 * x),
    lambda x: x**9 + 1e-6 * x,
]


@pytest.mark.parametrize("measure", RISING)
@given(st.floats(-0.9, 0.9))
def test_the_root_is_the_one_that_another_library_finds(measure: Callable[[float], float], at: float) -> None:
    target = measure(at)
    expected = brentq(lambda x: measure(x) - target - 1e-15, -1.0, 1.0, xtol=1e-13)
    found = rising_root(measure, -1.0, 1.0, target, narrow=1e-13)
    assert measure(found) == pytest.approx(measure(expected), abs=1e-9)


def test_an_end_is_the_answer_where_the_target_lies_beyond_it() -> None:
    assert rising_root(lambda x: x, 2.0, 5.0, 1.0) == 2.0
    assert rising_root(lambda x: x, 2.0, 5.0, 2.0) == 2.0
    assert rising_root(lambda x: x, 2.0, 5.0, 5.0) == 5.0
    assert rising_root(lambda x: x, 2.0, 5.0, 9.0) == 5.0


def test_near_is_near_enough() -> None:
    asked: list[float] = []

    def measure(x: float) -> float:
        asked.append(x)
        return x * x

    found = rising_root(measure, 0.0, 10.0, 25.0, near=0.5)
    assert abs(found * found - 25.0) <= 0.5
    assert len(asked) < 12


def test_ends_that_are_known_are_not_asked_for_again() -> None:
    asked: list[float] = []

    def measure(x: float) -> float:
        asked.append(x)
        return x - 0.25

    assert rising_root(measure, 0.0, 1.0, ends=(-0.25, 0.75)) == pytest.approx(0.25)
    assert 0.0 not in asked and 1.0 not in asked


def test_a_jump_is_found_where_it_is() -> None:
    assert rising_root(lambda x: 1.0 if x > 0.3 else -1.0, -1.0, 1.0) == pytest.approx(0.3, abs=1e-6)


@pytest.mark.parametrize("measure", RISING[1:4])
def test_it_is_much_quicker_than_halving(measure: Callable[[float], float]) -> None:
    """From 2 wide to 1e-12 halving takes 41 steps (log2 of 2e12); two measures are of the ends."""
    asked: list[float] = []

    def counted(x: float) -> float:
        asked.append(x)
        return measure(x)

    assert rising_root(counted, -1.0, 1.0, measure(0.3), narrow=1e-12) == pytest.approx(0.3, abs=1e-11)
    assert len(asked) - 2 <= 23
