"""Ratios told in words: `2.5 to 1`, `three to one`, `2.4 times as much water as lye`, `two parts water to one part lye`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saponary.words.figure_tokens import Token, ratio
from saponary.words.figure_words import LYE, WATER, FigureWords
from saponary.words.phrase_at import all_standing, stands_at

_ONE = (1.0, 0)


def with_ratios(here: Sequence[Token], words: FigureWords) -> list[Token]:
    """The tokens of a sentence, its numbers that are told as a ratio made one."""
    if not any(_plain(here, index, words) for index in range(len(here))):
        return [*here]
    found: list[Token] = []
    named = {words.subjects[phrase] for _, phrase in all_standing(here, frozenset(words.subjects))}
    both = {LYE, WATER} <= named
    told = _parts(here, words) if both else []
    index = 0
    while index < len(here):
        number = _plain(here, index, words)
        if number is None:
            found.append(here[index])
        elif _to_one(here, index, words):
            found.append(_made(here[index], here[index + 2].end, number, _ONE))
            index += 2
        elif both and any(stands_at(here, index + 1, phrase) for phrase in words.times):
            found.append(_made(here[index], here[index].end, number, _ONE))
        elif len(told) == 2 and told[0][0] == index:
            found.append(_made(here[index], here[index].end, number, told[1][1]))
        else:
            found.append(here[index])
        index += 1
    return found


def _made(first: Token, end: int, number: tuple[float, int], other: tuple[float, int]) -> Token:
    return replace(first, text="", end=end, number=ratio(number, other), is_number=True, plain=None)


def _plain(here: Sequence[Token], index: int, words: FigureWords) -> tuple[float, int] | None:
    """A number without a unit, in digits or as a word."""
    if index >= len(here):
        return None
    value = words.numbers.get(here[index].text)
    return here[index].plain if value is None else (value, 0)


def _to_one(here: Sequence[Token], index: int, words: FigureWords) -> bool:
    """`2 to 1`. Only to one: `2 to 3` may be minutes."""
    to = index + 1 < len(here) and (here[index + 1].text,) in words.to
    return to and _plain(here, index + 2, words) == _ONE


def _parts(here: Sequence[Token], words: FigureWords) -> list[tuple[int, tuple[float, int]]]:
    """Where numbers of parts stand, and the numbers."""
    return [
        (at, number)
        for at, after in enumerate(here[1:])
        if (after.text,) in words.parts and (number := _plain(here, at, words)) is not None
    ]
