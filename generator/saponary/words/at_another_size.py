"""A maker's text for somebody who makes another size: sentences with a weight of their own are left out.

A weight in braces is worked out again for the reader's size. One that stands in no braces is the
maker's, and would be wrong; so would one that the reader's size does not have. Rates, such as grams
for each kilogram, hold at any size. What is done here is done on the text as written.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

_UNIT = (
    r"g|gr|grams?|gramm|grammes?|gramos?|kg|kilos?|kilograms?|kilogramm|kilogrammes?|kilogramos?|mg|oz|ounces?|unzen?|onces?|"
    r"onzas?|lbs?|pounds?|pfund|livres?|libras?|ml|millilit(?:re|er)s?|cl|dl|l|lit(?:re|er)s?|litros?|quarts?|pints?"
)
_NUMBER = r"(?:\d[\d.,' \u00a0\u202f’]*|[½⅓⅔¼¾⅛])"
_SPELT = (
    r"(?:half an?|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|twenty|thirty|forty|fifty|hundred|"
    r"thousand|ein(?:e|en|em)?|zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|hundert|"
    r"une?|deux|trois|quatre|cinq|sept|huit|neuf|dix|cent|una?|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|cien)"
)
_WEIGHT_TEXT = rf"(?<![\w.,])(?:{_NUMBER}\s*[-–]?\s*(?:{_UNIT})|{_SPELT}[\s-]+(?:{_UNIT}))(?![\w])"
_RATE_TEXT = (
    rf"{_WEIGHT_TEXT}\s*(?:/|\b(?:per|for each|for every|to each|to every|pro|je|par|por)\s)\s*"
    rf"(?:{_NUMBER}\s*)?(?:{_UNIT})(?![\w])"
)
_SHARE = re.compile(r"\d\s*(?:%|percent|per cent|prozent|pour cent|por ciento)", re.IGNORECASE)
_BRACES = re.compile(r"\{[^{}]*\}")
_PIECES = re.compile(
    r"((?<=[.!?])[*_)”\"’]*[ \t]*\n?[ \t]*(?=[^\s\d])"
    r"|\n[ \t]*\n\s*|\n(?=[ \t]*(?:[-*+]|\d+[.)])\s)|\n(?=[ \t]*(?:#|>|`|~))|[ \t]*\|[ \t]*)"
)
_LEAD = re.compile(r"\s*(?:(?:[-*+]|\d+[.)]|#+|>)\s+)*")


@cache
def _patterns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """A weight, and a rate: compiled when first asked for, since they take longer than the rest of the module."""
    return re.compile(_WEIGHT_TEXT, re.IGNORECASE), re.compile(_RATE_TEXT, re.IGNORECASE)


def has_weight(sentence: str) -> bool:
    """Whether a sentence gives a weight or a volume that is no figure in braces and no rate."""
    bare = _BRACES.sub(" ", sentence)
    weight, rate = _patterns()
    return weight.search(rate.sub(" ", bare)) is not None


def has_share(sentence: str) -> bool:
    """Whether a sentence gives a share that is no figure in braces."""
    return _SHARE.search(_BRACES.sub(" ", sentence)) is not None


def without(text: str, left_out: Callable[[str], bool], instead: str) -> str:
    """The text with `instead` in place of every sentence, cell or item that is to be left out.

    Several in a row are told of once.
    """
    pieces = _PIECES.split(text)
    out: list[str] = []
    told = False
    for index, piece in enumerate(pieces):
        if index % 2 or not piece.strip():
            told = told and "\n" not in piece and "|" not in piece
            out.append(piece)
            continue
        if not left_out(piece):
            out.append(piece)
            told = False
            continue
        lead = _LEAD.match(piece)
        out.append((lead[0] if lead else "") + ("" if told else instead))
        told = True
    return "".join(out)
