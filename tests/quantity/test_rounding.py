"""The one rounding rule, half away from zero, against decimal arithmetic done apart."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor, isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.quantity.rounding import as_decimal, divided, show, show_down, to_decimals, to_step, told

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=120)

written = st.builds(
    lambda n, places: Decimal(n).scaleb(-places), st.integers(-(10**10), 10**10), st.integers(0, 7)
)
"""Numbers as a maker writes them: at most eleven figures, so that a double names them."""


def half_away(value: Fraction) -> int:
    whole = floor(abs(value) + Fraction(1, 2))
    return whole if value >= 0 else -whole


@REPEATABLE
@given(written, st.integers(0, 6))
def test_decimals_agree_with_decimal(number: Decimal, decimals: int) -> None:
    expected = number.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
    assert to_decimals(float(number), decimals) == expected
    shown = show(float(number), decimals)
    assert Decimal(shown) == expected
    assert len(shown.partition(".")[2]) == decimals


@REPEATABLE
@given(
    st.one_of(
        st.floats(-1e7, 1e7),
        st.floats(-1.0, 1.0),
        st.builds(
            lambda n, places, noise: n / 2 / 10**places + noise,
            st.integers(-2000, 2000),
            st.integers(0, 6),
            st.sampled_from([0.0, 1e-16, -1e-16, 1e-4, -1e-4]),
        ),
    ),
    st.integers(0, 9),
)
def test_the_quick_way_shows_what_the_rule_says(value: float, decimals: int) -> None:
    """Of any double, halves and what is just beside them among them: the same as decimal arithmetic on twelve figures."""
    expected = Decimal(f"{value:.12g}").quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
    assert Decimal(show(value, decimals)) == expected
    assert len(show(value, decimals).partition(".")[2]) == decimals and show(-0.0, decimals)[0] == "0"


@REPEATABLE
@given(written, st.sampled_from(["1", "0.1", "0.01", "0.5", "2", "5", "0.05", "28.349523125"]))
def test_steps_agree_with_fractions(number: Decimal, step: str) -> None:
    steps = half_away(Fraction(number) / Fraction(step))
    assert to_step(float(number), float(step)) == float(steps * Fraction(step))


@REPEATABLE
@given(st.integers(-(10**6), 10**6), st.sampled_from(["1", "0.1", "0.01"]))
def test_a_half_goes_away_from_zero(count: int, step: str) -> None:
    half = (Decimal(count) + Decimal("0.5")) * Decimal(step)
    away = count + 1 if half > 0 else count
    assert to_step(float(half), float(step)) == float(away * Decimal(step))


@REPEATABLE
@given(st.floats(-1e6, 1e6), st.sampled_from([1.0, 0.5, 0.1, 0.01]))
def test_a_weight_on_the_scale_stays_there(value: float, step: float) -> None:
    once = to_step(value, step)
    assert to_step(once, step) == once
    assert abs(once - value) <= step / 2 * (1 + 1e-9) + 1e-5 * step


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (2.675, 2, "2.68"),
        (0.5, 0, "1"),
        (1.5, 0, "2"),
        (2.5, 0, "3"),
        (-2.5, 0, "-3"),
        (-0.04, 1, "0.0"),
        (-0.0, 2, "0.00"),
        (-0.05, 1, "-0.1"),
        (138.74999999999997, 1, "138.8"),
        (0.1 + 0.2, 17, "0.30000000000000000"),
        (1e-9, 3, "0.000"),
        (1234567.895, 2, "1234567.90"),
        (100, 0, "100"),
    ],
)
def test_cases_a_binary_number_would_get_wrong(value: float, decimals: int, text: str) -> None:
    assert show(value, decimals) == text


@pytest.mark.parametrize("step", [0.0, -1.0])
def test_no_step_no_rounding(step: float) -> None:
    assert to_step(12.3456, step) == 12.3456


@given(
    st.lists(st.floats(min_value=0.5, max_value=5000), min_size=1, max_size=8),
    st.sampled_from([0.01, 0.1, 0.5, 1.0, 5.0, 0.28349523125]),
)
def test_parts_come_to_the_whole_as_it_is_rounded(parts: list[float], step: float) -> None:
    """Hamilton's method of largest remainders: each part is its share rounded down or up to a step."""
    whole = sum(parts)
    made = divided(whole, parts, step)
    assert sum(made) == pytest.approx(to_step(whole, step), abs=step * 1e-6)
    for one, part in zip(made, parts, strict=True):
        assert abs(one - part) < step * (1 + 1e-6)
        assert one == pytest.approx(to_step(one, step), abs=step * 1e-6)


def test_parts_of_a_jug() -> None:
    """Quotas of 160.85, 34.56 and 158.59 of 354: rounded down 352, and the two left to the largest remainders."""
    assert divided(354.0, [160.85, 34.56, 158.59], 1.0) == [161.0, 34.0, 159.0]


@REPEATABLE
@given(st.floats(0.01, 1e6, allow_nan=False), st.integers(0, 3))
def test_rounded_down_is_never_more(value: float, decimals: int) -> None:
    shown = float(show_down(value, decimals))
    assert shown <= value * (1 + 1e-11)
    assert isclose(value, shown, abs_tol=10.0**-decimals)


@pytest.mark.parametrize(
    ("step", "parts"),
    [(0.0, [50.25, 150.75]), (-1.0, [50.25, 150.75]), (1.0, [50.0, 151.0]), (0.5, [50.5, 150.5])],
)
def test_a_whole_is_divided_in_proportion(step: float, parts: list[float]) -> None:
    """201 in parts of 1 and 3; what rounding down leaves goes to the larger remainder."""
    assert divided(201.0, [1.0, 3.0], step) == pytest.approx(parts)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (138.74999999999997, "138.75"),
        (5.000000000000016, "5"),
        (1234.56789012, "1234.56789"),
        (1 / 3, "0.333333333"),
        (2e-17, "0"),
        (-2e-17, "0"),
        (1000.0, "1000"),
        (0.00012345678949, "0.000123457"),
        (12345678912.0, "12345678900"),
    ],
)
def test_figures_that_leave_the_program(value: float, text: str) -> None:
    assert as_decimal(value) == text
    assert told(value) == float(text)


@REPEATABLE
@given(written, st.sampled_from([-3e-16, 3e-16, 1e-15]))
def test_noise_of_the_last_bits_does_not_leave_the_program(number: Decimal, noise: float) -> None:
    assert as_decimal(float(number) * (1 + noise)) == as_decimal(float(number))
    assert told(as_float := float(number)) == told(told(as_float))
