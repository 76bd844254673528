"""A sentence as words, marks and numbers with their units, for whoever looks for figures in it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from saponary.words.inflect import fold
from saponary.words.sentences import Sentence

Kind = Literal["mass", "share", "ratio"]


@dataclass(frozen=True)
class Number:
    """A number as written, with its unit; `per` as in a bare figure."""

    value: float
    decimals: int
    unit: str
    kind: Kind
    per: float | None = None


@dataclass(frozen=True)
class Token:
    """A folded word, a mark (comma, colon, dash), or a number; `number` is None for one without a unit."""

    text: str
    start: int
    end: int
    number: Number | None = None
    is_number: bool = False


_UNITS: Mapping[str, tuple[str, ...]] = {
    "g": ("g", "gr", "gram", "grams", "gramm", "gramme", "grammes", "gramo", "gramos"),
    "kg": ("kg", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogramme", "kilogrammes"),
    "oz": ("oz", "ounce", "ounces", "unze", "unzen", "once", "onces", "onza", "onzas"),
    "lb": ("lb", "lbs", "pound", "pounds", "pfund", "livre", "livres", "libra", "libras"),
    "%": ("%", "percent", "per cent", "prozent", "pour cent", "por ciento"),
}
_UNIT_OF = {word: unit for unit, words in _UNITS.items() for word in words}
_UNIT = "|".join(re.escape(word) for word in sorted(_UNIT_OF, key=len, reverse=True))
_DIGITS = r"\d{1,3}(?:[ \u00a0\u202f'’]\d{3})+(?:[.,]\d{1,4})?|\d{1,7}(?:[.,]\d{1,4})?"
_GAP = r"[ \t\r\n\u00a0\u202f]{0,3}"
_WORD = r"[^\W\d_]+(?:[\u0300-\u036f]+[^\W\d_]*)*"
_TOKEN = re.compile(
    rf"(?P<ratio>(?<![\w.,:])(?:{_DIGITS}){_GAP}:{_GAP}(?:{_DIGITS})(?![\w:]))"
    rf"|(?P<number>(?<![\w.,])(?P<digits>{_DIGITS})(?P<second>{_GAP}[-–]{_GAP}(?:{_DIGITS}))?"
    rf"(?:{_GAP}(?P<unit>{_UNIT})(?![\w%]))?(?:{_GAP}/{_GAP}(?P<per>kg))?)"
    rf"|(?P<word>{_WORD})|(?P<mark>[,:(]|[–—])",
    re.IGNORECASE,
)
_SPELT_UNIT = re.compile(rf"{_GAP}({_UNIT})(?![\w%])", re.IGNORECASE)


def tokens(text: str, sentence: Sentence, numbers: Mapping[str, int]) -> list[Token]:
    """The tokens of a sentence of `text`; `numbers` are words for numbers, which count before a unit."""
    start, end = sentence.words[0].start, sentence.words[-1].end
    percent = _PERCENT.match(text, end)
    end = percent.end() if percent else end
    found: list[Token] = []
    at = start
    while (piece := _TOKEN.search(text, at, end)) is not None:
        at = piece.end()
        if piece["word"] is not None:
            word = fold(piece[0])[:40]
            unit = _SPELT_UNIT.match(text, at, end) if word in numbers else None
            if unit is not None:
                at = unit.end()
                number = _number(float(numbers[word]), 0, unit[1], None)
                found.append(Token("", piece.start(), at, number, True))
            else:
                found.append(Token(word, piece.start(), at))
        elif piece["mark"] is not None:
            found.append(Token(piece[0], piece.start(), at))
        else:
            found.append(Token("", piece.start(), at, _read(piece), True))
    return found


_PERCENT = re.compile(r"[ \u00a0\u202f]?%")


def _read(found: re.Match[str]) -> Number | None:
    """A number with its unit; None where it is a range or has no unit."""
    if found["ratio"] is not None:
        (first, decimals), (second, _) = (_digits(each) for each in found["ratio"].split(":"))
        return Number(first / second, decimals, "", "ratio") if second else None
    if found["unit"] is None or found["second"] is not None:
        return None
    return _number(*_digits(found["digits"]), found["unit"], found["per"])


def _number(value: float, decimals: int, unit: str, per: str | None) -> Number:
    name = _UNIT_OF[unit.casefold()]
    return Number(value, decimals, name, "share" if name == "%" else "mass", 1000.0 if per else None)


def _digits(text: str) -> tuple[float, int]:
    tidy = re.sub(r"[ \u00a0\u202f'’]", "", text.strip()).replace(",", ".")
    return float(Decimal(tidy)), len(tidy.partition(".")[2])
