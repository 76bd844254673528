"""Finds numbers in a text that say how much of something of the recipe there is, in no braces.

A number counts where it has a unit of weight, a per cent sign or is a ratio, and a word for
lye, water, superfat, the oils or an ingredient of the recipe stands beside it in its
sentence. Sentences that tell what once was, or what holds for soap at large, are passed over.
What is found is only read here; whether it holds is for a check to say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from saponary.words.figure_words import LYE, OILS, WATER, FigureWords, Phrase
from saponary.words.inflect import fold
from saponary.words.sentences import Sentence, sentences
from saponary.words.shown import Shown

Kind = Literal["mass", "share", "ratio"]


@dataclass(frozen=True)
class BareFigure:
    """A number as written: where it stands in the source, its value, unit and decimals, and of what.

    `decimals` is negative where noughts before the point are no digits ("about 140 g" has -1).
    `unit` is g, kg, oz, lb, %, or '' for a ratio, whose value is its first number to its second.
    `per` is set where it is a rate: grams of oils that the number is for.
    """

    start: int
    end: int
    text: str
    value: float
    decimals: int
    unit: str
    kind: Kind
    subject: str
    sentence: str
    per: float | None = None


@dataclass(frozen=True)
class _Number:
    """A number as written, with its unit; `per` as in a bare figure."""

    value: float
    decimals: int
    unit: str
    kind: Kind
    per: float | None = None


@dataclass(frozen=True)
class _Token:
    """A folded word, a mark (comma, colon, dash), or a number; `number` is None for one without a unit."""

    text: str
    start: int
    end: int
    number: _Number | None = None
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
_AFTER, _BEFORE = 4, 5
"""How many words may stand between a number and its subject, after it and before it."""

_LINKS = frozenset(
    [
        "of",
        "de",
        "du",
        "des",
        "d",
        "von",
        "an",
        "vom",
        "del",
        "der",
        "the",
        "la",
        "le",
        "les",
        "los",
        "el",
        "en",
        "l",
        "in",
    ]
)
"""Words that bind a number to what follows."""


def bare_figures(
    shown: Shown, words: FigureWords, ingredients: Mapping[Phrase, str], abbreviations: frozenset[str]
) -> Iterator[BareFigure]:
    """The bare figures of a text made ready by `shown.py`, in order."""
    subjects = {**ingredients, **words.subjects}
    for sentence in sentences(shown.text, abbreviations):
        tokens = _tokens(shown.text, sentence, words)
        if not any(token.number for token in tokens) or _passed_over(tokens, words):
            continue
        for index, token in enumerate(tokens):
            number = token.number
            if number is None or _no_figure(tokens, index, words) or _in_a_range(tokens, index):
                continue
            subject = _subject(tokens, index, _possible(tokens, index, subjects, words))
            if subject is None:
                continue
            rough = number.decimals == 0 and any(_ends_at(tokens, index, each) for each in words.roughly)
            yield BareFigure(
                shown.at[token.start],
                shown.at[token.end - 1] + 1,
                " ".join(shown.text[token.start : token.end].split()),
                number.value,
                -_noughts(number.value) if rough else number.decimals,
                number.unit,
                number.kind,
                subject,
                sentence.text(shown.text),
                number.per,
            )


def _tokens(text: str, sentence: Sentence, words: FigureWords) -> list[_Token]:
    start, end = sentence.words[0].start, sentence.words[-1].end
    percent = _PERCENT.match(text, end)
    end = percent.end() if percent else end
    found: list[_Token] = []
    at = start
    while (piece := _TOKEN.search(text, at, end)) is not None:
        at = piece.end()
        if piece["word"] is not None:
            word = fold(piece[0])[:40]
            unit = _SPELT_UNIT.match(text, at, end) if word in words.numbers else None
            if unit is not None:
                at = unit.end()
                number = _number(float(words.numbers[word]), 0, unit[1], None)
                found.append(_Token("", piece.start(), at, number, True))
            else:
                found.append(_Token(word, piece.start(), at))
        elif piece["mark"] is not None:
            found.append(_Token(piece[0], piece.start(), at))
        else:
            found.append(_Token("", piece.start(), at, _read(piece), True))
    return found


_PERCENT = re.compile(r"[ \u00a0\u202f]?%")


def _read(found: re.Match[str]) -> _Number | None:
    """A number with its unit; None where it is a range or has no unit."""
    if found["ratio"] is not None:
        (first, decimals), (second, _) = (_digits(each) for each in found["ratio"].split(":"))
        return _Number(first / second, decimals, "", "ratio") if second else None
    if found["unit"] is None or found["second"] is not None:
        return None
    return _number(*_digits(found["digits"]), found["unit"], found["per"])


def _number(value: float, decimals: int, unit: str, per: str | None) -> _Number:
    name = _UNIT_OF[unit.casefold()]
    return _Number(value, decimals, name, "share" if name == "%" else "mass", 1000.0 if per else None)


def _digits(text: str) -> tuple[float, int]:
    tidy = re.sub(r"[ \u00a0\u202f'’]", "", text.strip()).replace(",", ".")
    return float(Decimal(tidy)), len(tidy.partition(".")[2])


def _noughts(value: float) -> int:
    digits = str(int(value))
    return len(digits) - len(digits.rstrip("0"))


def _passed_over(tokens: Sequence[_Token], words: FigureWords) -> bool:
    """Whether the sentence tells what was, or holds for soap at large, or is about something else."""

    def any_of(phrases: frozenset[Phrase]) -> bool:
        return any(_at(tokens, index, phrase) for index in range(len(tokens)) for phrase in phrases)

    if any_of(words.history | words.nearby | words.conditional):
        return True
    return any_of(words.general) and not _ordered(tokens, len(tokens), words)


def _ordered(tokens: Sequence[_Token], before: int, words: FigureWords) -> bool:
    """Whether somebody is told to weigh: a verb that begins the sentence, or a clause of it."""
    for index in range(before):
        if any(_at(tokens, index, phrase) for phrase in words.orders):
            last = tokens[index - 1].text if index else ""
            if last in _CLAUSES:
                return True
    return False


_CLAUSES = frozenset(
    ("", ",", ":", "and", "then", "now", "you", "und", "dann", "jetzt", "et", "puis", "y", "luego")
)
"""What may stand before a verb that tells somebody what to do."""


def _no_figure(tokens: Sequence[_Token], index: int, words: FigureWords) -> bool:
    """Whether what stands right before a number makes it a rate, a limit or a pack.

    A limit in an order is a figure after all: "weigh no more than 150 g of lye".
    """
    ordered = _ordered(tokens, index, words)
    return any(_ends_at(tokens, index, phrase) for phrase in words.prior if not (ordered and len(phrase) > 1))


_RANGE = frozenset(("to", "and", "or", "bis", "und", "oder", "a", "et", "ou", "y", "o"))


def _in_a_range(tokens: Sequence[_Token], index: int) -> bool:
    """`4 to 8 %`, `between 4 % and 8 %`: two numbers with one word between."""

    def joined(first: int, second: int) -> bool:
        if first < 0 or second >= len(tokens):
            return False
        return tokens[first].is_number and tokens[second].is_number and tokens[first + 1].text in _RANGE

    return joined(index - 2, index) or joined(index, index + 2)


def _possible(
    tokens: Sequence[_Token], index: int, subjects: Mapping[Phrase, str], words: FigureWords
) -> Mapping[Phrase, str]:
    """What a number can be of. `% of the oils` says of what the share is, and not what is shared."""
    number = tokens[index].number
    assert number is not None
    if number.kind == "ratio":
        return {phrase: name for phrase, name in subjects.items() if name in (LYE, WATER)}
    after = [token.text for token in tokens[index + 1 : index + 5]]
    first = next((word for word in after if word not in _LINKS), "")
    if number.kind == "share" and after and after[0] in _LINKS and words.subjects.get((first,)) == OILS:
        return {phrase: name for phrase, name in subjects.items() if name != OILS}
    return subjects


def _ends_at(tokens: Sequence[_Token], index: int, phrase: Phrase) -> bool:
    return index >= len(phrase) and _at(tokens, index - len(phrase), phrase)


def _at(tokens: Sequence[_Token], index: int, phrase: Phrase) -> bool:
    if index + len(phrase) > len(tokens):
        return False
    for token, word in zip(tokens[index : index + len(phrase)], phrase, strict=True):
        if token.text != word and not (word.endswith("*") and token.text.startswith(word[:-1])):
            return False
    return True


def _subject(tokens: Sequence[_Token], index: int, subjects: Mapping[Phrase, str]) -> str | None:
    """What a number is of: the nearest word for something of the recipe, after it or before it."""
    best: tuple[float, int, str] | None = None
    for at in range(max(0, index - 12), min(len(tokens), index + 8)):
        for phrase, subject in subjects.items():
            far = _distance(tokens, index, at, len(phrase)) if _at(tokens, at, phrase) else None
            if far is not None:
                rank = (far, -len(phrase), subject)
                best = rank if best is None else min(best, rank)
    return best[2] if best is not None else None


_STOPS = frozenset((",", "(", "–", "—"))


def _distance(tokens: Sequence[_Token], index: int, at: int, length: int) -> float | None:
    """Words between a number and a phrase, with stops on the way counted dear; None where it is too far."""
    after = at > index
    if not after and at + length > index:
        return None
    between = tokens[index + 1 : at] if after else tokens[at + length : index]
    words = [t for t in between if t.text not in _LINKS and t.text not in _STOPS and t.text != ":"]
    if any(t.is_number for t in between) or len(words) > (_AFTER if after else _BEFORE):
        return None
    stops = sum(t.text in _STOPS for t in between)
    return len(words) + 1.5 * stops + (0.0 if after else 0.4)
