"""Finds numbers in a text that say how much of something of the recipe there is, in no braces.

A number counts where it has a unit of weight, a per cent sign or is a ratio, and a word for
lye, water, superfat, the oils or an ingredient of the recipe stands beside it in its
sentence. Sentences that tell what once was, or what holds for soap at large, are passed over.
What is found is only read here; whether it holds is for a check to say.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from saponary.words.figure_tokens import Kind, Token, tokens
from saponary.words.figure_words import LYE, OILS, WATER, FigureWords, Phrase
from saponary.words.sentences import sentences
from saponary.words.shown import Shown


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
        here = tokens(shown.text, sentence, words.numbers)
        if not any(token.number for token in here) or _passed_over(here, words):
            continue
        for index, token in enumerate(here):
            number = token.number
            if number is None or _no_figure(here, index, words) or _in_a_range(here, index):
                continue
            subject = _subject(here, index, _possible(here, index, subjects, words))
            if subject is None:
                continue
            rough = number.decimals == 0 and any(_ends_at(here, index, each) for each in words.roughly)
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


def _noughts(value: float) -> int:
    digits = str(int(value))
    return len(digits) - len(digits.rstrip("0"))


def _passed_over(here: Sequence[Token], words: FigureWords) -> bool:
    """Whether the sentence tells what was, or holds for soap at large, or is about something else."""

    def any_of(phrases: frozenset[Phrase]) -> bool:
        return any(_at(here, index, phrase) for index in range(len(here)) for phrase in phrases)

    if any_of(words.history | words.nearby | words.conditional):
        return True
    return any_of(words.general) and not _ordered(here, len(here), words)


def _ordered(here: Sequence[Token], before: int, words: FigureWords) -> bool:
    """Whether somebody is told to weigh: a verb that begins the sentence, or a clause of it."""
    for index in range(before):
        if any(_at(here, index, phrase) for phrase in words.orders):
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
    ordered = _ordered(here, index, words)
    return any(_ends_at(here, index, phrase) for phrase in words.prior if not (ordered and len(phrase) > 1))


_RANGE = frozenset(("to", "and", "or", "bis", "und", "oder", "a", "et", "ou", "y", "o"))


def _in_a_range(here: Sequence[Token], index: int) -> bool:
    """`4 to 8 %`, `between 4 % and 8 %`: two numbers with one word between."""

    def joined(first: int, second: int) -> bool:
        if first < 0 or second >= len(here):
            return False
        return here[first].is_number and here[second].is_number and here[first + 1].text in _RANGE

    return joined(index - 2, index) or joined(index, index + 2)


def _possible(
    here: Sequence[Token], index: int, subjects: Mapping[Phrase, str], words: FigureWords
) -> Mapping[Phrase, str]:
    """What a number can be of. `% of the oils` says of what the share is, and not what is shared."""
    number = here[index].number
    assert number is not None
    if number.kind == "ratio":
        return {phrase: name for phrase, name in subjects.items() if name in (LYE, WATER)}
    after = [token.text for token in here[index + 1 : index + 5]]
    first = next((word for word in after if word not in _LINKS), "")
    if number.kind == "share" and after and after[0] in _LINKS and words.subjects.get((first,)) == OILS:
        return {phrase: name for phrase, name in subjects.items() if name != OILS}
    return subjects


def _ends_at(here: Sequence[Token], index: int, phrase: Phrase) -> bool:
    return index >= len(phrase) and _at(here, index - len(phrase), phrase)


def _at(here: Sequence[Token], index: int, phrase: Phrase) -> bool:
    if index + len(phrase) > len(here):
        return False
    for token, word in zip(here[index : index + len(phrase)], phrase, strict=True):
        if token.text != word and not (word.endswith("*") and token.text.startswith(word[:-1])):
            return False
    return True


def _subject(here: Sequence[Token], index: int, subjects: Mapping[Phrase, str]) -> str | None:
    """What a number is of: the nearest word for something of the recipe, after it or before it."""
    best: tuple[float, int, str] | None = None
    for at in range(max(0, index - 12), min(len(here), index + 8)):
        for phrase, subject in subjects.items():
            far = _distance(here, index, at, len(phrase)) if _at(here, at, phrase) else None
            if far is not None:
                rank = (far, -len(phrase), subject)
                best = rank if best is None else min(best, rank)
    return best[2] if best is not None else None


_STOPS = frozenset((",", "(", "–", "—"))


def _distance(here: Sequence[Token], index: int, at: int, length: int) -> float | None:
    """Words between a number and a phrase, with stops on the way counted dear; None where it is too far."""
    after = at > index
    if not after and at + length > index:
        return None
    between = here[index + 1 : at] if after else here[at + length : index]
    words = [t for t in between if t.text not in _LINKS and t.text not in _STOPS and t.text != ":"]
    if any(t.is_number for t in between) or len(words) > (_AFTER if after else _BEFORE):
        return None
    stops = sum(t.text in _STOPS for t in between)
    return len(words) + 1.5 * stops + (0.0 if after else 0.4)
