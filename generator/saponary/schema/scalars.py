"""Readers of a scalar's text: each gives a value, or says what was expected.

Every reader raises QuantityError, with a hint, on a text that is no value of its kind, or one that is
outside what is possible at a bench.
"""

from __future__ import annotations

import re
from datetime import date

from saponary.quantity.amounts import Amount, parse_amount
from saponary.quantity.units import (
    LENGTH,
    MASS,
    TEMPERATURE,
    VOLUME,
    Quantity,
    QuantityError,
    parse,
    parse_ratio,
)


def _bounded(quantity: Quantity, low: float, high: float, measure: float, says: str) -> Quantity:
    if not low <= measure <= high:
        raise QuantityError(f"{quantity.text!r} is outside what is possible here", says)
    return quantity


def read_mass(value: object) -> Quantity:
    q = parse(value, units=tuple(MASS), example="1000 g")
    return _bounded(q, 0.0, 1e7, q.grams, "a weight from 0 to 10 000 kg")


def read_positive_mass(value: object) -> Quantity:
    q = read_mass(value)
    if q.value <= 0:
        raise QuantityError(
            f"{q.text!r} is not a weight above zero", "write a weight above zero, such as 0.1 g or 1000 g"
        )
    return _bounded(q, 1e-6, 1e7, q.grams, "a weight from a microgram to 10 000 kg")


def read_share(value: object) -> Quantity:
    q = parse(value, units=("%", ""), example="45 % or 2/5")
    if q.unit == "" and q.value > 1:
        raise QuantityError(
            f"{q.text!r} is more than the whole", f"write {q.text.strip()} % if per cent is meant"
        )
    if 0 < q.fraction < 1e-6:
        raise QuantityError(f"{q.text!r} is too little to weigh", "a share of at least 0.0001 %, or 0 %")
    return _bounded(q, 0.0, 1.0, q.fraction, "a share from 0 % to 100 %")


def read_superfat(value: object) -> Quantity:
    q = parse(value, units=("%",), example="5 %")
    return _bounded(q, -0.5, 0.9, q.fraction, "a superfat such as 5 %")


def read_part(value: object) -> Quantity:
    q = parse(value, units=("%", "", *MASS), example="45 %, 9/20 or 450 g")
    if q.unit == "" and q.value > 1:
        raise QuantityError(f"{q.text!r} has no unit", f"write {q.text.strip()} % or {q.text.strip()} g")
    if q.value < 0:
        raise QuantityError(f"{q.text!r} is less than nothing", "a share or weight of 0 or more")
    if q.unit in MASS:
        return _bounded(q, 0.0, 1e7, q.grams, "a weight from 0 to 10 000 kg")
    return _bounded(q, 0.0, 1.0, q.fraction, "a share from 0 % to 100 %")


def read_ratio(value: object) -> Quantity:
    q = parse_ratio(value)
    return _bounded(q, 0.1, 20.0, q.number, "water to lye, such as 2.0, from 0.1 to 20")


def read_any_amount(value: object) -> Amount:
    amount = parse_amount(value)
    if amount.quantity.value < 0:
        raise QuantityError(f"{amount.text!r} is less than nothing", "an amount of 0 or more")
    if amount.of_water:
        raise QuantityError(
            f"{amount.text!r} is for a liquid", "write a weight, a volume, 2 % of oils or 8 g/kg"
        )
    return _of_a_bench(amount)


def read_liquid_amount(value: object) -> Amount:
    amount = parse_amount(value)
    return amount if amount.of_water else read_any_amount(value)


def _of_a_bench(amount: Amount) -> Amount:
    size = amount.quantity.millilitres if amount.is_volume else amount.quantity.grams
    per = amount.per_grams_of_oil
    if size > 1e7 or (per is not None and size > 100 * per):
        raise QuantityError(f"{amount.text!r} is outside what is possible here", "an amount a bench can hold")
    return amount


def read_length(value: object) -> Quantity:
    q = parse(value, units=tuple(LENGTH), example="70 mm")
    return _bounded(q, 0.01, 1e5, q.millimetres, "a length from 0.01 mm to 100 m")


def read_volume(value: object) -> Quantity:
    q = parse(value, units=tuple(VOLUME), example="90 ml")
    return _bounded(q, 0.01, 1e7, q.millilitres, "a volume above zero")


def read_temperature(value: object) -> Quantity:
    q = parse(value, units=TEMPERATURE, example="38 °C")
    return _bounded(q, -50.0, 200.0, q.celsius, "a temperature from -50 °C to 200 °C")


def read_room_temperature(value: object) -> Quantity:
    q = read_temperature(value)
    return _bounded(q, -20.0, 60.0, q.celsius, "the temperature of a room, from -20 °C to 60 °C")


def read_lye_temperature(value: object) -> Quantity:
    """Weak lye freezes down to -28 °C (the eutectic of sodium hydroxide and water), strong lye boils by 145 °C
    (half sodium hydroxide by weight); both from memory."""
    q = read_temperature(value)
    return _bounded(q, -30.0, 150.0, q.celsius, "from -30 °C, where lye is frozen, to 150 °C, where it boils")


def read_oils_temperature(value: object) -> Quantity:
    """Above, the water of the lye would boil away at once; below, no fat is soft: common practice, no source."""
    q = read_temperature(value)
    return _bounded(q, -10.0, 150.0, q.celsius, "the temperature of melted oils, from -10 °C to 150 °C")


def read_oils_at(value: object) -> Quantity:
    """Over oils above 100 °C the water of the lye boils."""
    q = read_temperature(value)
    return _bounded(q, 0.0, 100.0, q.celsius, "from 0 °C to 100 °C, above which the water of the lye boils")


def read_cook_temperature(value: object) -> Quantity:
    """Below, no fat of a soap maker's is sure to be melted; above, its water has boiled away: from memory."""
    q = read_temperature(value)
    return _bounded(q, 40.0, 120.0, q.celsius, "the temperature of a pot that cooks, from 40 °C to 120 °C")


def read_slice(value: object) -> Quantity:
    """How thick soap can be cut and stay whole: common practice, no source."""
    q = read_length(value)
    return _bounded(q, 3.0, 1000.0, q.millimetres, "the thickness of a bar, from 3 mm to 1 m")


def read_inside(value: object) -> Quantity:
    """An inner measure of a mould."""
    q = read_length(value)
    return _bounded(q, 5.0, 5000.0, q.millimetres, "a measure of a mould, from 5 mm to 5 m")


def read_saponification_value(value: object) -> Quantity:
    q = parse(value, units=("mg/g", ""), example="189.4 mg/g")
    return _bounded(q, 1.0, 700.0, q.number, "mg of KOH per g, from 1 to 700")


def read_iodine_value(value: object) -> Quantity:
    q = parse(value, units=("g/100 g", "g/100g", ""), example="82 g/100 g")
    return _bounded(q, 0.0, 400.0, q.number, "g of iodine per 100 g, from 0 to 400")


def read_density(value: object) -> Quantity:
    q = parse(value, units=("g/ml", "g/mL", "g/cm³", "g/cm3"), example="0.91 g/ml")
    return _bounded(q, 0.01, 10.0, q.number, "a density from 0.01 to 10 g/ml")


def read_uptake(value: object) -> Quantity:
    q = parse(value, units=("mmol/g",), example="0.83 mmol/g")
    return _bounded(q, 0.0, 50.0, q.number, "mmol of hydroxide per g, from 0 to 50")


def read_molar_mass(value: object) -> Quantity:
    q = parse(value, units=("g/mol",), example="192.124 g/mol")
    return _bounded(q, 10.0, 5000.0, q.number, "a molar mass from 10 to 5000 g/mol")


def read_titrant(value: object) -> Quantity:
    q = parse(value, units=tuple(VOLUME), example="1.2 ml")
    return _bounded(q, 0.0, 1e4, q.millilitres, "millilitres of acid, from 0 up")


def read_normality(value: object) -> Quantity:
    q = parse(value, units=("mol/l", "N", ""), example="0.1 mol/l")
    return _bounded(q, 1e-4, 20.0, q.number, "mol of acid groups per litre, such as 0.1 mol/l")


def read_rate(value: object) -> Quantity:
    q = parse(value, units=("g/kg",), example="8 g/kg")
    return _bounded(q, 0.0, 1000.0, q.number, "grams per kilogram of oils, from 0 to 1000")


_FIRST_YEAR, _LAST_YEAR = 1900, 2199


def read_date(value: object) -> date:
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value, re.ASCII):
        try:
            found = date.fromisoformat(value)
        except ValueError as error:
            raise QuantityError(f"{value!r} is not in the calendar", "write a day as 2026-03-02") from error
        if not _FIRST_YEAR <= found.year <= _LAST_YEAR:
            raise QuantityError(
                f"{value!r} is outside what is possible here", f"a day from {_FIRST_YEAR} to {_LAST_YEAR}"
            )
        return found
    raise QuantityError("a date is needed here", "write it as 2026-03-02")


def read_day(value: object) -> int:
    if not isinstance(value, str) or not re.fullmatch(r"0|[1-9]\d{0,3}", value, re.ASCII):
        raise QuantityError(
            "a day of the cure is needed here",
            "days after the pour, such as 14, or a date such as 2026-03-16",
        )
    return int(value)


def read_id(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", value):
        raise QuantityError(
            f"{value[:40]!r} is not a name" if isinstance(value, str) else "a single name is needed here",
            f"names are lower case with hyphens, such as {_as_name(value)}",
        )
    if len(value) > 80:
        raise QuantityError("this name is too long", "at most 80 characters")
    return value


def _as_name(value: object) -> str:
    """The name that a text comes to, or one to look at."""
    made = re.sub(r"[^a-z0-9]+", "-", value.casefold()).strip("-") if isinstance(value, str) else ""
    return made if made and len(made) <= 80 else "blue-bar"


def read_colour(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
        raise QuantityError("this is not a colour", 'write it as "#a4503c", in quotes')
    return value.lower()
