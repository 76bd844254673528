"""A sentence as words, marks and numbers with their units, for whoever looks for figures in it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal
from unicodedata import numeric

from saponary.words.inflect import fold
from saponary.words.sentences import Sentence
from saponary.words.spelt_numbers import joins, parts, value

Kind = Literal["mass", "volume", "share", "ratio"]


@dataclass(frozen=True)
class Number:
    """A number as written, with its unit; `per` and `grouped` as in a bare figure."""

    value: float
    decimals: int
    unit: str
    kind: Kind
    per: float | None = None
    grouped: float | None = None


@dataclass(frozen=True)
class Token:
    """A folded word, a mark (comma, colon, dash), or a number; `number` is None for one without a unit.

    `plain` is such a number and its decimals.
    """

    text: str
    start: int
    end: int
    number: Number | None = None
    is_number: bool = False
    plain: tuple[float, int] | None = None


VULGAR = "½⅓⅔¼¾⅛⅜⅝⅞"
"""Fractions of one sign."""

_UNITS: Mapping[str, tuple[str, ...]] = {
    "g": ("g", "gr", "gram", "grams", "gramm", "gramme", "grammes", "gramo", "gramos"),
    "kg": ("kg", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogramme", "kilogrammes"),
    "oz": ("oz", "ounce", "ounces", "unze", "unzen", "once", "onces", "onza", "onzas"),
    "lb": ("lb", "lbs", "pound", "pounds", "pfund", "livre", "livres", "libra", "libras"),
    "ml": ("ml", "millilitre", "millilitres", "milliliter", "milliliters", "mililitro", "mililitros"),
    "cl": ("cl", "centilitre", "centilitres", "zentiliter", "centilitro", "centilitros"),
    "l": ("l", "litre", "litres", "liter", "liters", "litro", "litros"),
    "%": ("%", "percent", "per cent", "prozent", "pour cent", "por ciento"),
}
VOLUMES: Mapping[str, float] = {"ml": 1.0, "cl": 10.0, "l": 1000.0}
"""Millilitres in a unit of volume."""
_UNIT_OF = {word: unit for unit, words in _UNITS.items() for word in words}
_UNIT = "|".join(re.escape(word) for word in sorted(_UNIT_OF, key=len, reverse=True))
_ENDING = r"(?:(?<=%)ig[a-z]{0,3}|(?<=prozent)ig[a-z]{0,2})?"
"""`28%ig`, `28-prozentige`."""
_SPACE = r"[ \t\r\n\u00a0\u2000-\u200a\u202f\u205f]"
_SIGNS = "".join(VULGAR)
_DIGITS = (
    r"\d{1,3}(?:[ \u00a0\u2007-\u2009\u202f'’]\d{3})+(?:[.,]\d{1,4})?"
    rf"|\d{{1,2}}[ \u00a0]?[{_SIGNS}]|[{_SIGNS}]|(?:\d{{1,2}}[ \u00a0])?\d/\d{{1,2}}(?![\d/])|\d{{1,7}}(?:[.,]\d{{1,4}})?"
)
_GAP = rf"{_SPACE}{{0,3}}"
_BETWEEN = rf"(?:{_GAP}|-)"
"""Before a unit: `a 500-gram block`, `a 10-percent superfat`."""
_WORD = r"[^\W\d_]+(?:[\u0300-\u036f]+[^\W\d_]*)*"
_TOKEN = re.compile(
    rf"(?P<ratio>(?<![\w.,:])(?:{_DIGITS}){_GAP}:{_GAP}(?:{_DIGITS})(?![\w:]))"
    rf"|(?P<number>(?<![\w.,])(?P<digits>{_DIGITS})(?P<second>{_GAP}[-–]{_GAP}(?:{_DIGITS}))?"
    rf"(?:{_BETWEEN}(?P<unit>{_UNIT}){_ENDING}(?![\w%]))?(?:{_GAP}/{_GAP}(?P<per>kg))?)"
    rf"|(?P<word>{_WORD})|(?P<mark>[,:(]|[–—])",
    re.IGNORECASE,
)
_SPELT_UNIT = re.compile(rf"{_BETWEEN}(?:(?:an?|de){_SPACE})?({_UNIT}){_ENDING}(?![\w%])", re.IGNORECASE)
_NEXT = re.compile(rf"(?:-|{_SPACE}{{1,3}})({_WORD})")
_MOST_WORDS = 9
_PERCENT = re.compile(rf"{_SPACE}?%")


_DIGIT = re.compile(rf"[\d{_SIGNS}]")


def may_hold_numbers(text: str, sentence: Sentence, numbers: Mapping[str, float]) -> bool:
    """Whether a sentence has a digit, or a word that begins like a number: most have none, and need not be taken apart."""
    start, end = max(0, sentence.words[0].start - 1), sentence.words[-1].end
    begins = tuple(numbers)
    return _DIGIT.search(text, start, end) is not None or any(
        word.text.startswith(begins) for word in sentence.words
    )


def tokens(text: str, sentence: Sentence, numbers: Mapping[str, float]) -> list[Token]:
    """The tokens of a sentence of `text`; `numbers` are words for numbers, which count before a unit."""
    start, end = sentence.words[0].start, sentence.words[-1].end
    if start and text[start - 1] in VULGAR:
        start -= 1
    percent = _PERCENT.match(text, end)
    end = percent.end() if percent else end
    found: list[Token] = []
    at = start
    while (piece := _TOKEN.search(text, at, end)) is not None:
        at = piece.end()
        if piece["word"] is not None:
            spelt = _spelt(text, piece.start(), end, numbers)
            found.append(spelt or Token(fold(piece[0])[:40], piece.start(), at))
            at = found[-1].end
        elif piece["mark"] is not None:
            found.append(Token(piece[0], piece.start(), at))
        else:
            found.append(Token("", piece.start(), at, _read(piece), True, _plain(piece)))
    return found


def _spelt(text: str, start: int, end: int, numbers: Mapping[str, float]) -> Token | None:
    """The number whose words begin at `start`, with the unit right behind them."""
    words: list[str] = []
    word = _WORD_AT.match(text, start, end)
    for _ in range(_MOST_WORDS):
        if word is None:
            return None
        said = fold(word[word.lastindex or 0])
        spelt = parts(said, numbers)
        if spelt is None and not (words and joins(said)):
            return None
        words += spelt or (said,)
        unit = _SPELT_UNIT.match(text, word.end(), end)
        if unit is not None and spelt is not None:
            amount = value(words, numbers)
            number = _number(amount, 2 if amount % 1 else 0, unit[1], None)
            return Token("", start, unit.end(), number, True)
        word = _NEXT.match(text, word.end(), end)
    return None


_WORD_AT = re.compile(_WORD)


def _read(found: re.Match[str]) -> Number | None:
    """A number with its unit; None where it is a range or has no unit."""
    if found["ratio"] is not None:
        first, second = (_digits(each) for each in found["ratio"].split(":"))
        return ratio(first, second)
    if found["unit"] is None or found["second"] is not None:
        return None
    number = _number(*_digits(found["digits"]), found["unit"], found["per"])
    grouped = _GROUPED.fullmatch(found["digits"])
    return replace(number, grouped=float(grouped[1] + grouped[2])) if grouped else number


def _plain(found: re.Match[str]) -> tuple[float, int] | None:
    alone = found["ratio"] is None and found["unit"] is None and found["second"] is None
    return _digits(found["digits"]) if alone else None


_GROUPED = re.compile(r"(\d{1,3})[.,](\d{3})")


def ratio(first: tuple[float, int], second: tuple[float, int]) -> Number | None:
    """The greater of two numbers to the smaller, each with its decimals; 1:1.5 is 1.5 to one."""
    (most, decimals), (least, _) = sorted((first, second), reverse=True)
    return Number(most / least, decimals, "", "ratio") if least else None


def _number(value: float, decimals: int, unit: str, per: str | None) -> Number:
    name = _UNIT_OF[unit.casefold()]
    kind: Kind = "share" if name == "%" else "volume" if name in VOLUMES else "mass"
    return Number(value, decimals, name, kind, 1000.0 if per else None)


def _digits(text: str) -> tuple[float, int]:
    """A number and its decimals; a fraction has two."""
    tidy = text.strip()
    if "/" in tidy or tidy[-1] in VULGAR:
        whole, part = (
            ("", tidy) if " " not in tidy.replace("\u00a0", " ") else re.split("[ \u00a0]", tidy, maxsplit=1)
        )
        if "/" not in part:
            whole, part = whole or part[:-1], f"{numeric(part[-1])}/1"
        above, below = part.split("/")
        return (float(whole or 0) + float(above) / float(below), 2) if float(below) else (0.0, 0)
    tidy = re.sub(rf"{_SPACE}|['’]", "", tidy).replace(",", ".")
    return float(Decimal(tidy)), len(tidy.partition(".")[2])
