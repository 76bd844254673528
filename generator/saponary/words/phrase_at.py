"""Whether a phrase of a word list stands at a place among the tokens of a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saponary.words.figure_tokens import Token


def stands_at(here: Sequence[Token], index: int, phrase: Sequence[str]) -> bool:
    """Whether a phrase begins at `index`."""
    if index < 0 or index + len(phrase) > len(here):
        return False
    return all(
        token.is_number if word == "#" else _is_word(token.text, word)
        for token, word in zip(here[index : index + len(phrase)], phrase, strict=True)
    )


def ends_at(here: Sequence[Token], index: int, phrase: Sequence[str]) -> bool:
    """Whether a phrase ends right before `index`."""
    return stands_at(here, index - len(phrase), phrase)


def any_stand(here: Sequence[Token], phrases: Iterable[Sequence[str]]) -> bool:
    """Whether one of the phrases stands anywhere."""
    return any(stands_at(here, index, phrase) for phrase in phrases for index in range(len(here)))


def _is_word(text: str, word: str) -> bool:
    """Whether a word is meant by one of a phrase: `de*` is any word that begins so, `!de*|que` any other."""
    if word.startswith("!"):
        return bool(text) and not any(_is_word(text, each) for each in word[1:].split("|"))
    return text == word or (word.endswith("*") and text.startswith(word[:-1]))
