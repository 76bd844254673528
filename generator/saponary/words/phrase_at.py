"""Whether a phrase of a word list stands at a place among the tokens of a sentence."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from saponary.words.figure_tokens import Token
from saponary.words.figure_words import Phrase


def stands_at(here: Sequence[Token], index: int, phrase: Phrase) -> bool:
    """Whether a phrase begins at `index`."""
    if index < 0 or index + len(phrase) > len(here):
        return False
    for word in phrase:
        token = here[index]
        if not (token.is_number if word == "#" else _is_word(token.text, word)):
            return False
        index += 1
    return True


def ends_at(here: Sequence[Token], index: int, phrase: Phrase) -> bool:
    """Whether a phrase ends right before `index`."""
    return stands_at(here, index - len(phrase), phrase)


def any_stand(here: Sequence[Token], phrases: frozenset[Phrase]) -> bool:
    """Whether one of the phrases stands anywhere."""
    return next(all_standing(here, phrases), None) is not None


def all_standing(here: Sequence[Token], phrases: frozenset[Phrase]) -> Iterator[tuple[int, Phrase]]:
    """Where each of the phrases stands."""
    exact, loose = _by_first_word(phrases)
    for index, token in enumerate(here):
        for phrase in exact.get(token.text, ()):
            if len(phrase) == 1 or stands_at(here, index, phrase):
                yield index, phrase
        for phrase in loose:
            if stands_at(here, index, phrase):
                yield index, phrase


@lru_cache(maxsize=256)
def _by_first_word(phrases: frozenset[Phrase]) -> tuple[Mapping[str, list[Phrase]], list[Phrase]]:
    """Phrases by the one word that they begin with, and those that may begin with several."""
    exact, loose = dict[str, list[Phrase]](), list[Phrase]()
    for phrase in phrases:
        several = phrase[0] == "#" or phrase[0].startswith("!") or phrase[0].endswith("*")
        (loose if several else exact.setdefault(phrase[0], [])).append(phrase)
    return exact, loose


def _is_word(text: str, word: str) -> bool:
    """Whether a word is meant by one of a phrase: `de*` is any word that begins so, `!de*|que` any other."""
    if text == word:
        return not word.startswith("!")
    if word.startswith("!"):
        return bool(text) and not any(_is_word(text, each) for each in word[1:].split("|"))
    return word.endswith("*") and text.startswith(word[:-1])
