"""Finds numbers in a text that say how much of something of the recipe there is, in no braces.

A number counts where it has a unit of weight, a per cent sign or is a ratio, and a word for
lye, water, superfat, the oils or an ingredient of the recipe stands beside it in its
sentence. Sentences that tell what once was, or what holds for soap at large, are passed over.
What is found is only read here; whether it holds is for a check to say.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from saponary.words.figure_subject import STOPS, possible_subjects, subject_of
from saponary.words.figure_tokens import Kind, Number, Token, may_hold_numbers, tokens
from saponary.words.figure_words import LYE, OILS, RIVAL, SUPERFAT, WATER, FigureWords, Phrase
from saponary.words.phrase_at import all_standing, any_stand, ends_at, stands_at
from saponary.words.sentences import sentences
from saponary.words.shown import Shown
from saponary.words.told_ratios import with_ratios


class BareFigure(NamedTuple):
    """A number as written: where it stands in the source, its value, unit and decimals, and of what.

    `decimals` is negative where noughts before the point are no digits ("about 140 g" has -1).
    `unit` is g, kg, oz, lb, %, or '' for a ratio, whose value is its first number to its second.
    `per` is set where it is a rate: grams of oils that the number is for. `grouped` is set where
    the mark in it may part thousands: `1.000 g` may be a thousand grams. `part` says that the number is of
    some of its subject, so that any less than the whole is right.
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
    grouped: float | None = None
    part: bool = False


def bare_figures(
    shown: Shown, words: FigureWords, ingredients: Mapping[Phrase, str], abbreviations: frozenset[str]
) -> Iterator[BareFigure]:
    """The bare figures of a text made ready by `shown.py`, in order."""
    subjects = {**dict.fromkeys(words.rivals, RIVAL), **ingredients, **words.subjects}
    for sentence in sentences(shown.text, abbreviations):
        if not may_hold_numbers(shown.text, sentence, words.numbers):
            continue
        here = with_ratios(tokens(shown.text, sentence, words.numbers), words)
        if not any(token.number for token in here) or _tells_other(here, words):
            continue
        found = list(_figures(here, subjects, words))
        compared = _compared(found)
        for token, number, subject, part, rough in found:
            if number.kind == "share" and subject in compared:
                continue
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
                number.grouped,
                part,
            )


class _Found(NamedTuple):
    """A number of a sentence that is of something: whether of some of it, and whether it is rough."""

    token: Token
    number: Number
    subject: str
    part: bool
    rough: bool


def _figures(here: Sequence[Token], subjects: Mapping[Phrase, str], words: FigureWords) -> Iterator[_Found]:
    for place, token in enumerate(here):
        number = token.number
        if number is None:
            continue
        near, index = here[max(0, place - _NEAR) : place + _NEAR], min(place, _NEAR)
        if _no_figure(near, index, words) or _in_a_range(near, index):
            continue
        if _at_large(near[: _clause_end(near, index)], words):
            continue
        possible = possible_subjects(near, index, subjects, words)
        subject = subject_of(near, index, possible, words)
        if subject is None or subject == RIVAL or _of_itself(near, index, possible, words):
            continue
        rough = number.decimals == 0 and any(ends_at(near, index, each) for each in words.roughly)
        yield _Found(token, number, subject, _in_part(near, index, words), rough)


_NEAR = 60
"""Words before and after a number that are looked at."""


def _compared(found: Sequence[_Found]) -> set[str]:
    """What a sentence tells two shares of: `at 28 % the lye is slow, at 40 % it races`."""
    shares: dict[str, set[float]] = {}
    for each in found:
        if each.number.kind == "share":
            shares.setdefault(each.subject, set()).add(each.number.value)
    return {subject for subject, values in shares.items() if len(values) > 1}


def _noughts(value: float) -> int:
    digits = str(int(value))
    return len(digits) - len(digits.rstrip("0"))


def _tells_other(here: Sequence[Token], words: FigureWords) -> bool:
    """Whether the sentence tells what was, or what would be, or how much for how much."""
    rates = any(
        token.number and any(ends_at(here, index, phrase) for phrase in words.rates)
        for index, token in enumerate(here)
    )
    return rates or any_stand(here, words.history) or any_stand(here, words.conditional)


def _at_large(here: Sequence[Token], words: FigureWords) -> bool:
    """Whether words hold for soap at large, or are about something else than the batter."""
    if any_stand(here, words.nearby):
        return True
    return any_stand(here, words.general) and not _ordered(here, len(here), words)


def _clause_end(here: Sequence[Token], index: int) -> int:
    """Where the clause of a number ends. What is said behind it may be about anything."""
    return next((at for at in range(index + 1, len(here)) if here[at].text in STOPS), len(here))


def _in_part(here: Sequence[Token], index: int, words: FigureWords) -> bool:
    """Whether a weight is of some of a thing: `hold back 30 g of the olive oil`."""
    number = here[index].number
    if number is None or number.kind != "mass":
        return False
    if index and here[index - 1].text in _WHOLE:
        return False
    if index and here[index - 1].text in _WITH and any_stand(here, words.wetting):
        lye = any(words.subjects.get((token.text,)) == LYE for token in here)
        return not lye
    return any_stand(here, words.aside) or any(stands_at(here, index + 1, phrase) for phrase in words.partly)


_WITH = frozenset(("into", "in", "with", "mit", "dans", "avec", "en", "con"))
"""Before a weight: `stir the kaolin into 20 g of water` takes some of it."""
_WHOLE = frozenset(
    (
        "the",
        "all",
        "whole",
        "alle",
        "ganzen",
        "gesamten",
        "die",
        "les",
        "tous",
        "toutes",
        "los",
        "todos",
        "todas",
    )
)
"""Before a weight: `all 320 g of the water` is no part of it."""


def _of_itself(here: Sequence[Token], index: int, subjects: Mapping[Phrase, str], words: FigureWords) -> bool:
    """Whether a share is of a thing in that thing: `the oat drink holds 10 % oats`."""
    number = here[index].number
    if number is None or number.kind != "share":
        return False
    before = {subjects[phrase] for at, phrase in all_standing(here, frozenset(subjects)) if at < index}
    behind = subject_of(here[index:], 0, subjects, words)
    return behind in before - {OILS, LYE, WATER, SUPERFAT}


def _ordered(here: Sequence[Token], before: int, words: FigureWords) -> bool:
    """Whether somebody is told to weigh: a verb that begins the sentence, or a clause of it."""
    for index in range(before):
        if any(stands_at(here, index, phrase) for phrase in words.orders):
            last = here[index - 1].text if index else ""
            if last in _CLAUSES:
                return True
    return False


_CLAUSES = frozenset(
    ("", ",", ":", "and", "then", "now", "you", "und", "dann", "jetzt", "et", "puis", "y", "luego")
)
"""What may stand before a verb that tells somebody what to do."""


def _no_figure(here: Sequence[Token], index: int, words: FigureWords) -> bool:
    """Whether what stands right before a number makes it a rate, a limit or a pack.

    A limit in an order is a figure after all: "weigh no more than 150 g of lye".
    """
    if any(stands_at(here, index + 1, phrase) for phrase in words.behind):
        return True
    ordered = _ordered(here, index, words)
    last = index - 1 if index and here[index - 1].text in _ARTICLES else index
    return any(ends_at(here, last, phrase) for phrase in words.prior if not (ordered and len(phrase) > 1))


_ARTICLES = frozenset(
    ("a", "an", "the", "ein", "eine", "einen", "einer", "un", "une", "una", "el", "le", "les", "los")
)


_RANGE = frozenset(("to", "and", "or", "bis", "und", "oder", "a", "et", "ou", "y", "o"))


def _in_a_range(here: Sequence[Token], index: int) -> bool:
    """`4 to 8 %`, `between 4 % and 8 %`: two numbers with one word between."""

    def joined(first: int, second: int) -> bool:
        if first < 0 or second >= len(here):
            return False
        return here[first].is_number and here[second].is_number and here[first + 1].text in _RANGE

    return joined(index - 2, index) or joined(index, index + 2)
