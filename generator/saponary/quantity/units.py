"""Quantities as a maker writes them: a number, a unit, and the precision it was written to.

A quantity keeps its text, so that `138.7 g` is known to be stated to a tenth of a gram.
Factors are exact by definition (international avoirdupois pound and inch of 1959, US
customary spoons); the tests hold them against a general units library.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from decimal import Decimal, DecimalException
from fractions import Fraction
from functools import cache

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
          | (?P<dec>\d{1,3}(?:[ ]\d{3})+(?:[.,]\d+)?(?!\d)
                  | \d{1,3}(?:,\d{3})+\.\d+ | \d{1,3}(?:,\d{3}){2,}(?!\d)
                  | \d+(?:[.,]\d+)? | \.\d+) )""",
    re.VERBOSE,
)
_EITHER = re.compile(r"[1-9]\d{0,2},\d{3}")
"""A comma that may part thousands, or whole numbers from thousandths."""
_TWO_UNITS = re.compile(r"(?P<big>[^a-z]+[a-z]+)[ ,]+(?:and )?(?P<small>\d[^a-z]*[a-z]+)", re.IGNORECASE)
_PAIRS = {("lb", "oz"): 16, ("kg", "g"): 1000}
"""Units that are written together, and how many of the smaller make one of the greater."""
MAX_LENGTH = 60
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
        return float(self.value * _factor(table[self.unit]))

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


@cache
def _factor(written: str) -> Fraction:
    """A factor of one of the tables."""
    return Fraction(Decimal(written))


def clean(text: str) -> str:
    """Spaces of every kind to one plain space; vulgar fractions and signs to ASCII."""
    if text.isascii():
        return re.sub("[ \t\r\n]+", " ", text).strip()
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
    if found["dec"] is not None and _EITHER.fullmatch(found["dec"]):
        thousand, thousandths = found["dec"].replace(",", ""), found["dec"].replace(",", ".")
        raise QuantityError(
            f"{whole!r} can be read in two ways: as {thousand}{rest} or as {thousandths}{rest}",
            f"write {thousand}{rest}, or {thousandths}{rest}",
        )
    if re.match(r"[eE][-+]?\d|[\d_/.,]", rest):
        raise QuantityError(
            f"{whole!r} is not a plain number", "write digits with at most one point, such as 12.5 g"
        )
    value, decimals = _exact(found, whole)
    if decimals is not None and decimals > _MAX_DECIMALS:
        raise QuantityError(f"{whole!r} has too many decimals", f"write at most {_MAX_DECIMALS} of them")
    return -value if found["sign"] in ("-", "−") else value, decimals, rest.strip()


def _plain(number: str) -> str:
    """Digits with at most one point: commas and spaces that part thousands are taken out."""
    number = number.replace(" ", "")
    if "." in number or number.count(",") > 1:
        return number.replace(",", "")
    return number.replace(",", ".")


def _exact(found: re.Match[str], whole: str) -> tuple[Fraction, int | None]:
    """The value of a number as matched, without its sign, and its decimals; a fraction has none."""
    try:
        if found["dec"] is not None:
            exact = Decimal(_plain(found["dec"]))
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
    if len(text) > MAX_LENGTH:
        raise QuantityError(f"{text[:24]!r}… is too long for a quantity", f"write it as {example}")
    tidy = clean(text)
    two = _TWO_UNITS.fullmatch(tidy)
    if two is not None and "g" in units:
        return replace(_of_two(two, tidy), text=text)
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


def _of_two(two: re.Match[str], whole: str) -> Quantity:
    """A weight in two units, such as 2 lb 4 oz, in the smaller of them."""
    (big, _, greater), (small, decimals, lesser) = (
        parse_number(two[part].strip(), whole=whole) for part in ("big", "small")
    )
    many = _PAIRS.get((canonical_unit(greater), canonical_unit(lesser)))
    if many is None:
        raise QuantityError(f"{whole!r} has two units", "write 2 lb 4 oz, 1 kg 200 g, or one unit: 1.5 oz")
    if not 0 <= small < many or big < 0:
        raise QuantityError(
            f"{whole!r} has {many} {canonical_unit(lesser)} or more beside {canonical_unit(greater)}",
            "write it with one unit, such as 36 oz",
        )
    return Quantity(big * many + small, canonical_unit(lesser), decimals, whole)


def parse_ratio(text: object, *, example: str = "2.0") -> Quantity:
    """Water to lye: `2`, `2.0`, `2:1`, or any two numbers with a colon; it keeps the first one's decimals."""
    sides = text.split(":") if isinstance(text, str) else []
    if len(sides) != 2:
        return parse(text, units=("",), example=example)
    water, lye = (parse(side, units=("",), example=example) for side in sides)
    assert isinstance(text, str)
    tidy = clean(text)
    if lye.value <= 0 or water.value <= 0:
        raise QuantityError(f"{tidy!r} is not a ratio", "water to lye, such as 2:1")
    if water.value < lye.value:
        turned = f"{clean(sides[1])}:{clean(sides[0])}"
        raise QuantityError(
            f"{tidy!r} says less water than lye; turned round it is {turned}",
            f"water comes first: write {turned} for {clean(sides[1])} of water to {clean(sides[0])} of lye",
        )
    decimals = water.decimals if lye.value == 1 else None
    return Quantity(water.value / lye.value, "", decimals, text)


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
