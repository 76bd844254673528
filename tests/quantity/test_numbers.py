"""Weights as they go on a scale."""

from __future__ import annotations

import pytest

from saponary.quantity.numbers import Scale

GRAM, TENTH, OUNCE = Scale(1.0, "g"), Scale(0.1, "g"), Scale(2.8349523125, "oz")


@pytest.mark.parametrize(
    ("scale", "value", "main", "beside", "weighed"),
    [
        (GRAM, 138.7, "139", "4.90", 139.0),
        (GRAM, 138.5, "139", "4.90", 139.0),
        (TENTH, 138.74, "138.7", "4.89", 138.7),
        (OUNCE, 141.7476, "5.0", "141.7", 141.747615625),
        (GRAM, 0.0, "0", "0.00", 0.0),
        (GRAM, 9.6, "10", "0.35", 10.0),
    ],
)
def test_a_weight_is_rounded_to_the_step(
    scale: Scale, value: float, main: str, beside: str, weighed: float
) -> None:
    found = scale.weigh(value)
    assert (found.main, found.beside, found.fine) == (main, beside, False)
    assert found.grams == pytest.approx(weighed)


@pytest.mark.parametrize(
    ("value", "main", "weighed"),
    [(0.44, "0.44", 0.44), (1.3, "1.3", 1.3), (0.123, "0.123", 0.123), (0.0123, "0.012", 0.012)],
)
def test_what_is_too_small_for_the_step_is_told_finer(value: float, main: str, weighed: float) -> None:
    """More than a tenth of itself would be lost: it is told to a fiftieth of itself or finer."""
    found = GRAM.weigh(value)
    assert found.main == main
    assert found.grams == pytest.approx(weighed)
    assert found.fine


def test_a_tenth_is_not_yet_too_much() -> None:
    assert not GRAM.weigh(0.91).fine
    assert GRAM.weigh(0.909).fine


def test_the_other_unit_stands_beside() -> None:
    assert (GRAM.beside, OUNCE.beside) == ("oz", "g")
    assert (GRAM.step_shown, TENTH.step_shown) == (1.0, 0.1)
    assert OUNCE.step_shown == pytest.approx(0.1)


def test_ounces_too_small_for_the_scale_have_three_decimals() -> None:
    found = OUNCE.weigh(1.0)
    assert found.main == "0.035"
    assert found.fine
