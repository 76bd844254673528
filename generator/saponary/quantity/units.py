"""Quantities as a maker writes them: a number, a unit, and the precision it was written to.

A quantity keeps its text, so that `138.7 g` is known to be stated to a tenth of a gram.
Factors are exact by definition (international avoirdupois pound and inch of 1959, US
customary spoons); the tests hold them against a general units library.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal, DecimalException
from fractions import Fraction

MASS = {"g": "1", "kg": "1000", "mg": "0.001", "oz": "28.349523125", "lb": "453.59237"}
VOLUME = {
    "ml": "1",
    "l": "1000",
    "tsp": "4.92892159375",
    "tbsp": "14.78676478125",
}
LENGTH = {"mm": "1", "cm": "10", "in": "25.4"}
TEMPERATURE = ("°C", "°F")
_ALIASES = {
    "gram": "g", "grams": "g", "gm": "g", "ounce": "oz", "ounces": "oz", "pound": "lb",
    "pounds": "lb", "lbs": "lb", "kilogram": "kg", "kilograms": "kg", "mL": "ml", "L": "l",
    "litre": "l", "litres": "l", "liter": "l", "liters": "l", "teaspoon": "tsp",
    "teaspoons": "tsp", "tablespoon": "tbsp", "tablespoons": "tbsp", "inch": "in",
    "inches": "in", "C": "°C", "F": "°F", "degC": "°C", "degF": "°F", "percent": "%",
    "days": "day", "d": "day",
}  # fmt: skip

_NUMBER = re.compile(
    r"""(?P<sign>[-+−]?)\s*
        (?: (?P<whole>\d+)\s+(?P<mixnum>\d+)\s*/\s*(?P<mixden>\d+)
          | (?P<num>\d+)\s*/\s*(?P<den>\d+)
          | (?P<dec>\d+(?:\.\d+)?|\.\d+) )""",
    re.VERBOSE,
)
_MAX_LENGTH = 60
_MAX_DECIMALS = 9


class QuantityError(ValueError):
    """A quantity that cannot be read; `hint` says what was expected."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


@dataclass(frozen=True)
class Quantity:
    """A number with a unit. `unit` is '' for a bare number; `decimals` is the precision
    the text shows, or None where the number was written as a fraction.
    """

    value: Fraction
    unit: str
    decimals: int | None
    text: str

    @property
    def number(self) -> float:
        return float(self.value)

    def of(self, table: dict[str, str]) -> float:
        """The value in the table's base unit (g, ml or mm)."""
        return float(self.value * Fraction(Decimal(table[self.unit])))

    @property
    def grams(self) -> float:
        return self.of(MASS)

    @property
    def millilitres(self) -> float:
        return self.of(VOLUME)

    @property
    def millimetres(self) -> float:
        return self.of(LENGTH)

    @property
    def celsius(self) -> float:
        return self.number if self.unit == "°C" else (self.number - 32.0) / 1.8

    @property
    def fraction(self) -> float:
        """A share as a fraction of one: 5 % and 1/20 are both 0.05."""
        return float(self.value / 100) if self.unit == "%" else self.number


def clean(text: str) -> str:
    """Spaces of every kind to one plain space; vulgar fractions and signs to ASCII."""
    out: list[str] = []
    for char in text.strip(" \t\r\n"):
        if unicodedata.category(char) == "No" and "FRACTION" in unicodedata.name(char, ""):
            out.append(" " + unicodedata.normalize("NFKC", char).replace("⁄", "/"))
        elif char in "\t\n\r" or unicodedata.category(char) == "Zs":
            out.append(" ")
        else:
            out.append({"−": "-", "⁄": "/", "º": "°"}.get(char, char))
    return re.sub(" +", " ", "".join(out)).strip()


def _part(top: str, bottom: str, whole: str) -> Fraction:
    """The fraction beside a whole number, below one."""
    if int(top) >= int(bottom) > 0 or (len(top) > 1 and int(top[0]) == 0):
        raise QuantityError(
            f"{whole!r} has a fraction of one or more beside a whole number",
            "write 1 1/2, or one fraction such as 3/2",
        )
    return Fraction(int(top), int(bottom))


def parse_number(text: str, *, whole: str) -> tuple[Fraction, int | None, str]:
    """Read the number at the start of `text`; give its value, decimals and what follows."""
    found = _NUMBER.match(text)
    if found is None:
        lowered = text.lower().lstrip("+-.")
        if lowered.startswith(("nan", "inf")):
            raise QuantityError(f"{whole!r} is not a finite number", "write a number such as 12.5 g")
        raise QuantityError(
            f"{whole!r} does not begin with a number", "write a number and a unit, such as 12.5 g"
        )
    rest = text[found.end() :]
    if re.match(r",\d{3}(?!\d)", rest):
        raise QuantityError(
            f"{whole!r} uses a comma inside a number, which may part thousands or tenths",
            "write 1000 g for a thousand, 1.0 g for one",
        )
    if re.match(r",\d", rest):
        raise QuantityError(
            f"{whole!r} uses a comma inside a number", "write the decimal point as a point: 12.5 g"
        )
    if re.match(r"[eE][-+]?\d|[\d_/.]", rest):
        raise QuantityError(
            f"{whole!r} is not a plain number", "write digits with at most one point, such as 12.5 g"
        )
    value, decimals = _exact(found, whole)
    if decimals is not None and decimals > _MAX_DECIMALS:
        raise QuantityError(f"{whole!r} has too many decimals", f"write at most {_MAX_DECIMALS} of them")
    return -value if found["sign"] in ("-", "−") else value, decimals, rest.strip()


def _exact(found: re.Match[str], whole: str) -> tuple[Fraction, int | None]:
    """The value of a number as matched, without its sign, and its decimals; a fraction has none."""
    try:
        if found["dec"] is not None:
            exact = Decimal(found["dec"])
            return Fraction(exact), max(0, -int(exact.as_tuple().exponent))
        if found["whole"] is not None:
            return int(found["whole"]) + _part(found["mixnum"], found["mixden"], whole), None
        return Fraction(int(found["num"]), int(found["den"])), None
    except QuantityError:
        raise
    except (ZeroDivisionError, DecimalException, ValueError) as error:
        raise QuantityError(
            f"{whole!r} is not a number", "a fraction needs a denominator above zero"
        ) from error


def parse(text: object, *, units: tuple[str, ...], example: str) -> Quantity:
    """Read `text` as a quantity in one of `units` ('' allows a bare number).

    Raises QuantityError, with a hint, on anything else.
    """
    if not isinstance(text, str):
        raise QuantityError("a quantity is needed here", f"write one value, such as {example}")
    if len(text) > _MAX_LENGTH:
        raise QuantityError(f"{text[:24]!r}… is too long for a quantity", f"write it as {example}")
    tidy = clean(text)
    value, decimals, unit = parse_number(tidy, whole=tidy)
    unit = canonical_unit(unit)
    if unit not in units:
        wanted = ", ".join(u for u in units if u) or "no unit"
        if unit == "":
            raise QuantityError(f"{tidy!r} has no unit", f"expected one of: {wanted}; for example {example}")
        raise QuantityError(
            f"{tidy!r} has the unit {unit!r}, which does not fit here",
            f"expected one of: {wanted}; for example {example}",
        )
    return Quantity(value, unit, decimals, text)


def canonical_unit(unit: str) -> str:
    """The short form of a unit as written: grams is g, litres l, °c °C."""
    tidy = unit.strip()
    if tidy in _ALIASES:
        return _ALIASES[tidy]
    lowered = tidy.lower()
    if lowered in _ALIASES:
        return _ALIASES[lowered]
    if lowered in ("°c", "° c"):
        return "°C"
    if lowered in ("°f", "° f"):
        return "°F"
    if lowered in MASS or lowered in VOLUME or lowered in LENGTH:
        return lowered
    return tidy


@dataclass(frozen=True)
class Amount:
    """How much of an addition: a weight, a volume, or either for so much oil.

    `per_grams_of_oil` is None for a plain amount; `2 % of oils` is 2 g per 100 g.
    """

    quantity: Quantity
    per_grams_of_oil: float | None

    @property
    def is_volume(self) -> bool:
        return self.quantity.unit in VOLUME

    @property
    def text(self) -> str:
        return self.quantity.text


_OF_OILS = re.compile(r"\s(?:(?:of|on)\s+)?(?:the\s+)?oils?$", re.IGNORECASE)
_PER = re.compile(r"^(?P<head>.*[a-zA-Z])\s*(?:/|\bper\b)\s*(?P<tail>[\d./ ]*[a-zA-Z]+)$", re.IGNORECASE)
AMOUNT_UNITS = (*MASS, *VOLUME)


def parse_amount(text: object) -> Amount:
    """Read the amount of an addition or liquid.

    Accepts `60 g`, `1 tbsp`, `2 % of oils`, `8 g/kg`, `1 tbsp/kg`, `1 oz per 15 oz`.
    """
    example = "12 g, 1 tbsp, 2 % of oils or 8 g/kg"
    if not isinstance(text, str):
        raise QuantityError("an amount is needed here", f"write {example}")
    if len(text) > _MAX_LENGTH:
        raise QuantityError(f"{text[:24]!r}… is too long for an amount", f"write {example}")
    tidy = re.sub(r"\bper\s+cent\b", "%", clean(text), flags=re.IGNORECASE)
    head = _OF_OILS.sub("", tidy)
    per = _PER.match(head)
    if per:
        top = parse(per["head"], units=AMOUNT_UNITS, example=example)
        tail = per["tail"].strip()
        base = parse(
            tail if tail[0].isdigit() or tail[0] == "." else f"1 {tail}", units=tuple(MASS), example="8 g/kg"
        )
        if base.value <= 0:
            raise QuantityError(f"{tidy!r} is for no oil at all", "write it as 8 g/kg")
        return Amount(Quantity(top.value, top.unit, top.decimals, text), base.grams)
    if head != tidy:
        share = parse(head, units=("%", ""), example="2 % of oils")
        if share.unit == "" and share.value > 1:
            raise QuantityError(f"{tidy!r} is more than the oils themselves", f"write {head} % of oils")
        percent = share.value if share.unit == "%" else share.value * 100
        return Amount(Quantity(percent, "g", share.decimals, text), 100.0)
    if tidy.endswith("%"):
        raise QuantityError(f"{tidy!r} does not say of what", "write 2 % of oils")
    plain = parse(tidy, units=AMOUNT_UNITS, example=example)
    return Amount(Quantity(plain.value, plain.unit, plain.decimals, text), None)
