"""Numbers as people write them: a decimal comma, thousands apart, two units, a ratio with a colon.

That a space parts thousands and that either sign may part decimals is ISO 80000-1:2009, 7.3.1 and 7.3.2 (from
memory); commas for thousands, and pounds with ounces, are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from saponary.quantity.amounts import parse_amount
from saponary.quantity.units import MASS, QuantityError, parse, parse_ratio


@pytest.mark.parametrize(
    ("text", "grams", "decimals"),
    [
        ("139,8 g", "139.8", 1),
        ("0,500 g", "0.500", 3),
        ("139,80 g", "139.80", 2),
        ("1 000 g", "1000", 0),
        ("1\u202f000 g", "1000", 0),
        ("1 000,5 g", "1000.5", 1),
        ("12 345 678 mg", "12345.678", 0),
        ("1,000.5 g", "1000.5", 1),
        ("1,000,000 mg", "1000", 0),
        ("1000,250 g", "1000.250", 3),
        ("1 kg 200 g", "1200", 0),
        ("1 kg 62.5 g", "1062.5", 1),
    ],
)
def test_weights(text: str, grams: str, decimals: int) -> None:
    read = parse(text, units=tuple(MASS), example="1000 g")
    assert read.value * Fraction(MASS[read.unit]) == Fraction(grams)
    assert read.decimals == decimals and read.text == text


@pytest.mark.parametrize(
    ("text", "ounces"),
    [
        ("2 lb 4 oz", "36"),
        ("2lb 4.5oz", "36.5"),
        ("1 pound and 8 ounces", "24"),
        ("2 lb, 4 oz", "36"),
        ("1 lb 1/2 oz", "16.5"),
    ],
)
def test_pounds_and_ounces(text: str, ounces: str) -> None:
    read = parse(text, units=tuple(MASS), example="1000 g")
    assert (read.value, read.unit) == (Fraction(ounces), "oz")


@pytest.mark.parametrize(
    ("text", "value"),
    [("2:1", "2"), ("2.03:1", "2.03"), ("2 : 1", "2"), ("3:2", "1.5"), ("2.0", "2"), ("2,2:1", "2.2")],
)
def test_ratios(text: str, value: str) -> None:
    assert parse_ratio(text).value == Fraction(value)


@pytest.mark.parametrize("text", ["1:2", "2:0", "0:1", "2:1:1", "a:b", ":", "2:"])
def test_ratios_refused(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_ratio(text)
    assert caught.value.hint


def test_both_readings_of_an_ambiguous_number_are_shown() -> None:
    with pytest.raises(QuantityError, match=r"as 1500 g or as 1\.500 g") as caught:
        parse("1,500 g", units=tuple(MASS), example="1000 g")
    assert caught.value.hint == "write 1500 g, or 1.500 g"
    with pytest.raises(QuantityError, match="turned round it is 2:1"):
        parse_ratio("1:2")


def test_a_share_of_the_water() -> None:
    half = parse_amount("25 % of water")
    assert half.of_water and half.quantity.fraction == 0.25 and half.per_grams_of_oil is None
    assert parse_amount("1/4 of the water").quantity.fraction == 0.25
