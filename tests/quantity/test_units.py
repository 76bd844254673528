"""Quantities: factors against a general units library, and what is and is not read as a quantity.

Factors: international avoirdupois pound and inch (1959), US customary spoons, as the library `pint`
has them, in exact fractions.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import cache

import pint
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from saponary.quantity.amounts import AMOUNT_UNITS, Amount, parse_amount
from saponary.quantity.units import (
    LENGTH,
    MASS,
    TEMPERATURE,
    VOLUME,
    Quantity,
    QuantityError,
    canonical_unit,
    clean,
    parse,
)

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=150)

NAMES = {
    "g": "gram", "kg": "kilogram", "mg": "milligram", "oz": "ounce", "lb": "pound", "ml": "milliliter",
    "l": "liter", "tsp": "teaspoon", "tbsp": "tablespoon", "mm": "millimeter", "cm": "centimeter",
    "in": "inch",
}  # fmt: skip
BASES = [(MASS, "gram"), (VOLUME, "milliliter"), (LENGTH, "millimeter")]
UNITS = ("", "%", *MASS, *VOLUME, *LENGTH, *TEMPERATURE)


@cache
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(non_int_type=Fraction)


def read(text: str, *units: str) -> Quantity:
    return parse(text, units=units or UNITS, example="12.5 g")


@pytest.mark.parametrize(("unit", "base"), [(unit, base) for table, base in BASES for unit in table])
def test_every_factor_against_the_library(unit: str, base: str) -> None:
    assert unit in NAMES, f"write in NAMES what pint calls {unit!r}"
    table = next(table for table, name in BASES if name == base)
    expected = registry().Quantity(Fraction(1), NAMES[unit]).to(base).magnitude
    assert Fraction(table[unit]) == expected
    assert read(f"1 {unit}").of(table) == float(expected)


@REPEATABLE
@given(st.integers(-4000, 4000))
@example(-400)
def test_temperatures_against_the_library(tenths: int) -> None:
    written = f"{Decimal(tenths) / 10} °F"
    expected = registry().Quantity(Fraction(tenths, 10), "degF").to("degC").magnitude
    assert read(written).celsius == pytest.approx(float(expected), rel=1e-12, abs=1e-12)
    assert read(written.replace("F", "C")).celsius == float(Fraction(tenths, 10))


def test_fixed_points_of_temperature() -> None:
    """Water freezes at 32 °F and boils at 212 °F; both scales meet at -40: general knowledge."""
    assert read("32 °F").celsius == 0.0
    assert read("212 °F").celsius == pytest.approx(100.0)
    assert read("-40 °F").celsius == pytest.approx(-40.0)


# Text: value, unit, and the decimals its writing shows (None for a fraction).
READ: dict[str, tuple[str, str, int | None]] = {
    "12 g": ("12", "g", 0),
    "138.70 g": ("138.7", "g", 2),
    ".5 g": ("0.5", "g", 1),
    "0 g": ("0", "g", 0),
    "007 g": ("7", "g", 0),
    "+5 g": ("5", "g", 0),
    "-5 g": ("-5", "g", 0),
    "−5 g": ("-5", "g", 0),
    "- 5 g": ("-5", "g", 0),
    "5g": ("5", "g", 0),
    "  5   g  ": ("5", "g", 0),
    "5\u00a0g": ("5", "g", 0),
    "5\u202fg": ("5", "g", 0),
    "5\u3000g": ("5", "g", 0),
    "5\tg": ("5", "g", 0),
    "1/2 tsp": ("1/2", "tsp", None),
    "1 / 2 tsp": ("1/2", "tsp", None),
    "1 1/2 tsp": ("3/2", "tsp", None),
    "-1 1/2 tsp": ("-3/2", "tsp", None),
    "½ tsp": ("1/2", "tsp", None),
    "½tsp": ("1/2", "tsp", None),
    "1½ tsp": ("3/2", "tsp", None),
    "1 ½ tsp": ("3/2", "tsp", None),
    "2⅔ tbsp": ("8/3", "tbsp", None),
    "1⁄3 tbsp": ("1/3", "tbsp", None),
    "⅞ in": ("7/8", "in", None),
    "2/5": ("2/5", "", None),
    "45 %": ("45", "%", 0),
    "33.33%": ("33.33", "%", 2),
    "5 percent": ("5", "%", 0),
    "38 °C": ("38", "°C", 0),
    "38 ºC": ("38", "°C", 0),
    "38 C": ("38", "°C", 0),
    "100.4 degF": ("100.4", "°F", 1),
    "3 ounces": ("3", "oz", 0),
    "2 LBS": ("2", "lb", 0),
    "1 KG": ("1", "kg", 0),
    "90 mL": ("90", "ml", 0),
    "0.5 L": ("0.5", "l", 1),
    "3 Tablespoons": ("3", "tbsp", 0),
    "10 inches": ("10", "in", 0),
    # Decimal digits of any script are digits: Arabic-Indic, Devanagari, full width.
    "١٢ g": ("12", "g", 0),
    "१२.५ g": ("12.5", "g", 1),
    "１２ g": ("12", "g", 0),
    # Sixty characters are the most that is read.
    f"{'9' * 58} g": ("9" * 58, "g", 0),
}


@pytest.mark.parametrize("text", READ)
def test_read_as(text: str) -> None:
    value, unit, decimals = READ[text]
    quantity = read(text)
    assert quantity.value == Fraction(value)
    assert (quantity.unit, quantity.decimals, quantity.text) == (unit, decimals, text)


REFUSED = [
    "", " ", "\u00a0", "g", "half", "5", "5 kilos", "5 stone", "5 g g", "5 g/", "5 m", "5 -g",
    "nan", "NaN g", "inf", "-inf g", "Infinity g", "1e5", "1e5 g", "1E-5 g", "1e+5 g", "0x10 g",
    "1,000 g", "12,500 g", "1, 5 g", ",5 g", "1'000 g", "1_000 g", "1 00 g", "1 0000 g", "1.000.000 g", "1.000,5 g",
    "1 lb 16 oz", "2 lb 4 dr", "1 oz 8 g", "-1 lb 2 oz", "1,0000,000 g",
    "1..5 g", "5. g", "5.g", "--5 g", "+-5 g", "–5 g", "5 + 5 g", "5-6 g", "~5 g", "< 5 g",
    "1/0 g", "1 1/0 g", "1/2/3 g", "1/½ g", "½½ g", "1.5½ g", "0.½ g", "1//2 g", "/2 g", "1/ g",
    "1/-2 g", "1.5/2 g", "5² g", "²",
    "⑤ g", "Ⅻ g", "五 g", "൳ g", "٫5 g", "٣٫٥ g", "5\u200bg", "5\ufeffg", "\u200e5 g",
    "9" * 61, f"{'9' * 60} g", "1/" + "0" * 50 + " g", "5 g\x00", "5\x00 g", "%", "°C", "½",
]  # fmt: skip


@pytest.mark.parametrize("text", REFUSED)
def test_refused_with_a_hint(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read(text, *AMOUNT_UNITS)
    assert str(caught.value)
    assert caught.value.hint


@pytest.mark.parametrize("thing", [None, 5, 5.0, True, ["5 g"], {"g": 5}, b"5 g"])
def test_only_text_is_read(thing: object) -> None:
    for reader in (lambda it: parse(it, units=UNITS, example="5 g"), parse_amount):
        with pytest.raises(QuantityError):
            reader(thing)


def test_what_the_refusals_say() -> None:
    for text, says in (
        ("nan", "finite"),
        ("1,500 g", "two ways: as 1500 g or as 1.500 g"),
        ("1 oz 8 dr", "two units"),
        ("1 lb 16 oz", "16 oz or more"),
        ("5", "no unit"),
        ("5 stone", "'stone'"),
        ("1e5 g", "plain number"),
        ("9" * 61, "too long"),
        ("1/0 g", "not a number"),
    ):
        with pytest.raises(QuantityError, match=says):
            read(text, *AMOUNT_UNITS)


def test_a_unit_that_does_not_fit_the_place() -> None:
    with pytest.raises(QuantityError, match="'ml'"):
        read("5 ml", *MASS)
    with pytest.raises(QuantityError, match="'g'"):
        read("5 g", "")


@REPEATABLE
@given(
    st.decimals(min_value=-(10**9), max_value=10**9, places=4, allow_nan=False),
    st.sampled_from([unit for unit in UNITS if unit]),
    st.sampled_from(["", " ", "\u00a0", "  "]),
)
def test_a_decimal_and_its_unit_there_and_back(number: Decimal, unit: str, space: str) -> None:
    quantity = read(f"{number:f}{space}{unit}")
    assert quantity.value == Fraction(number)
    assert quantity.unit == unit
    assert quantity.decimals == 4
    again = read(f"{quantity.value.numerator}/{quantity.value.denominator} {quantity.unit}")
    assert again.value == quantity.value


@REPEATABLE
@given(st.integers(0, 999), st.integers(0, 99), st.integers(1, 99), st.sampled_from(["tsp", "in", "%"]))
def test_mixed_fractions_there_and_back(whole: int, top: int, bottom: int, unit: str) -> None:
    if top < bottom:
        assert read(f"{whole} {top}/{bottom} {unit}").value == whole + Fraction(top, bottom)
    assert read(f"{top}/{bottom} {unit}").value == Fraction(top, bottom)
    assert read(f"-{top}⁄{bottom}{unit}").value == -Fraction(top, bottom)


def test_a_fraction_of_more_than_one_beside_a_whole_is_a_slip() -> None:
    """`1 000/2 g` is meant as five hundred and would be read as one; `1 5/2 tsp` is no way to write
    anything."""
    for text in ("1 000/2 g", "1 5/2 tsp", "12 10/2 g"):
        with pytest.raises(QuantityError):
            read(text)


def test_signs_and_fractions_become_plain() -> None:
    """By their names in Unicode: a vulgar fraction stands apart from the number before it, a slash does not."""
    assert clean(" 1½ g\n") == "1 1/2 g"
    assert clean("1⁄2 g") == "1/2 g"
    assert clean("−5\u202f°C") == "-5 °C"
    assert clean("5 ºC") == "5 °C"


@REPEATABLE
@given(st.text(max_size=40))
def test_cleaning_twice_is_cleaning_once(text: str) -> None:
    assert clean(clean(text)) == clean(text)


def test_short_forms_of_units() -> None:
    for short in NAMES:
        assert canonical_unit(short) == short
        assert canonical_unit(f" {short.upper()} ") == short
    assert canonical_unit("furlong") == "furlong"


def test_shares() -> None:
    for text in ("5 %", "1/20", "0.05", "5%"):
        assert read(text).fraction == pytest.approx(0.05, rel=1e-15)


# --- amounts of additions ---------------------------------------------------------------

# Text: number, unit, and grams of oil it is for (None for a plain amount).
AMOUNTS: dict[str, tuple[str, str, float | None]] = {
    "60 g": ("60", "g", None),
    "1 tbsp": ("1", "tbsp", None),
    "½ tsp": ("1/2", "tsp", None),
    "1/2 tsp": ("1/2", "tsp", None),
    "1 1/2 tsp": ("3/2", "tsp", None),
    "0 g": ("0", "g", None),
    "2 % of oils": ("2", "g", 100.0),
    "2% of oils": ("2", "g", 100.0),
    "2 % of the oils": ("2", "g", 100.0),
    "2 % on oils": ("2", "g", 100.0),
    "1.5 percent of oil": ("1.5", "g", 100.0),
    "1/3 % of oils": ("1/3", "g", 100.0),
    "1/50 of oils": ("2", "g", 100.0),
    "8 g/kg": ("8", "g", 1000.0),
    "8 g / kg": ("8", "g", 1000.0),
    "8 g per kg": ("8", "g", 1000.0),
    "8 g/kg oils": ("8", "g", 1000.0),
    "1 tbsp/kg": ("1", "tbsp", 1000.0),
    "½ tsp/kg": ("1/2", "tsp", 1000.0),
    "1/2 tsp per 1/2 kg": ("1/2", "tsp", 500.0),
    "1 tsp per ½ kg": ("1", "tsp", 500.0),
    "1 tsp/lb": ("1", "tsp", 453.59237),
    "1 oz per 15 oz": ("1", "oz", 425.242846875),
    "3 oz per 45 oz": ("3", "oz", 1275.728540625),
    "85 g per 1275 g": ("85", "g", 1275.0),
    "5 ml per 500 g": ("5", "ml", 500.0),
    "٢ % of oils": ("2", "g", 100.0),
}


@pytest.mark.parametrize("text", AMOUNTS)
def test_amounts_read_as(text: str) -> None:
    value, unit, per = AMOUNTS[text]
    amount = parse_amount(text)
    assert amount.quantity.value == Fraction(value)
    assert amount.quantity.unit == unit
    assert amount.is_volume == (unit in VOLUME)
    assert amount.text == text
    if per is None:
        assert amount.per_grams_of_oil is None
    else:
        assert amount.per_grams_of_oil == pytest.approx(per, rel=1e-12)


REFUSED_AMOUNTS = [
    "", "5", "5 %", "5 in", "5 °C", "of oils", "% of oils", "x % of oils", "2 g of oils", "8 g/0 kg",
    "8 g/ml", "8 g/-1 kg", "8 g per kg of sugar", "/kg", "per kg", "8 /kg", "8 g//kg", "8 g/1e3 g",
    "8 g/1,5 kg", "1/0 tsp/kg", "1/2/3 kg", "nan g", "200 % of water", "2 g of water", "inf % of oils",
    "2 % of oils of oils", "1,500 % of oils", "8 g/kg/kg", "9" * 61, "8 g per " + "9" * 60 + " kg",
]  # fmt: skip


@pytest.mark.parametrize("text", REFUSED_AMOUNTS)
def test_amounts_refused_with_a_hint(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_amount(text)
    assert caught.value.hint


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("8 g/kg of oils", "8 g/kg"),
        ("8 g per kg of oils", "8 g/kg"),
        ("1 oz per 15 oz of oils", "1 oz per 15 oz"),
        ("1 tbsp per kg of the oils", "1 tbsp/kg"),
        ("+1/2 tsp", "1/2 tsp"),
    ],
)
def test_amounts_said_in_more_words_are_the_same(one: str, other: str) -> None:
    first, second = parse_amount(one), parse_amount(other)
    assert first.quantity.value == second.quantity.value
    assert first.quantity.unit == second.quantity.unit
    assert first.per_grams_of_oil == second.per_grams_of_oil


def grams_for(amount: Amount, oils: float) -> float:
    grams = amount.quantity.grams
    return grams if amount.per_grams_of_oil is None else grams * oils / amount.per_grams_of_oil


def test_three_ounces_to_forty_five_are_the_85_to_1275_of_the_trade() -> None:
    """Common practice, no source: at most 3 oz of ready-made soap per 45 oz of oils, 85 g per 1275 g.
    One rule."""
    for oils in (500.0, 1275.0, 4536.0):
        by_ounces = grams_for(parse_amount("3 oz per 45 oz"), oils)
        by_grams = grams_for(parse_amount("85 g per 1275 g"), oils)
        assert by_ounces == pytest.approx(by_grams, rel=1e-12)
        assert by_ounces == pytest.approx(oils / 15, rel=1e-12)
    assert parse_amount("3 oz").quantity.grams == pytest.approx(85.05, abs=0.005)
    assert read("45 oz").grams == pytest.approx(1275.73, abs=0.005)


@REPEATABLE
@given(
    st.decimals(min_value=0, max_value=10**5, places=3, allow_nan=False),
    st.sampled_from(AMOUNT_UNITS),
    st.decimals(min_value=1, max_value=10**4, places=2, allow_nan=False),
    st.sampled_from(tuple(MASS)),
    st.sampled_from(["/", " / ", " per "]),
)
def test_rates_there_and_back(top: Decimal, unit: str, bottom: Decimal, base: str, word: str) -> None:
    amount = parse_amount(f"{top:f} {unit}{word}{bottom:f} {base}")
    assert amount.quantity.value == Fraction(top)
    assert amount.quantity.unit == unit
    assert amount.quantity.decimals == 3
    assert amount.per_grams_of_oil == float(Fraction(bottom) * Fraction(MASS[base]))


TELLING = st.text(
    alphabet=st.sampled_from(
        "0123456789 ./⁄½⅓⅟↉+-−,'_eEinfaNgkmloztsbpTSPuh%°ºCF²①٣५\u00a0\u2009\u200b\n\x00"
    ),
    max_size=24,
)
WORDS = st.lists(
    st.sampled_from(
        ["1", "1/2", "½", "0", "1/0", ".5", "5.", "1e5", "nan", "-", "/", "per", "of", "on", "the", "oils",
         "oil", "%", "g", "kg", "tsp", "oz", "lb", "ml", "in", "°C", ",", " ", "\u00a0", "9" * 30]
    ),
    max_size=8,
).flatmap(lambda words: st.sampled_from(["", " "]).map(lambda glue: glue.join(words)))  # fmt: skip


@settings(REPEATABLE, max_examples=300)
@given(st.one_of(TELLING, WORDS, st.text(max_size=70)))
@example("\ud800 g")
@example("1" * 60)
@example("1/" + "0" * 58)
@example("⅟")
@example("1 g per .")
@example("\U0001d7d8 g")
def test_nothing_but_a_quantity_error_comes_of_any_text(text: str) -> None:
    for reader in (read, lambda it: read(it, *AMOUNT_UNITS), lambda it: parse(it, units=(), example="5 g")):
        try:
            quantity = reader(text)
        except QuantityError as error:
            assert error.hint
        else:
            assert quantity.unit in UNITS
            assert quantity.text == text
    try:
        amount = parse_amount(text)
    except QuantityError as error:
        assert error.hint
    else:
        assert amount.quantity.unit in AMOUNT_UNITS
        assert amount.per_grams_of_oil is None or amount.per_grams_of_oil > 0
        assert amount.text == text


@pytest.mark.parametrize(("decimals", "fits"), [(9, True), (10, False), (11, False)])
def test_nine_decimals_are_the_most(decimals: int, fits: bool) -> None:
    text = f"1.{'1' * decimals} g"
    if fits:
        assert parse(text, units=("g",), example="1 g").decimals == decimals
    else:
        with pytest.raises(QuantityError, match="too many decimals"):
            parse(text, units=("g",), example="1 g")
