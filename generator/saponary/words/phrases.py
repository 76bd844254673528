"""The little language of forms, and phrases made ready to be looked for.

A form is words in order: `heal/v` all forms of a verb, `/n` of a noun, `/a` of an
adjective, `anti*` any word that begins so, `*haut` any word that ends so, `a|b` either, `@skin` any of a named set,
`~` up to two other words, `…` up to five, and `anti-bacterial` joined, hyphenated or
apart. Small words such as articles may stand between any two.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from typing import NamedTuple

from saponary.words.inflect import KINDS, fold, forms

GAPS: Mapping[str, int] = {"~": 2, "…": 5}
MAX_PHRASES = 4_000
_MAX_WORDS = 12
_DEEPEST = 8

Word = frozenset[str]
"""Spellings that will do at one place; one that ends in * is a beginning, one that begins with * an end."""


class FormError(ValueError):
    """A form that cannot be read; the text says why."""


class Phrase(NamedTuple):
    """Words in order; `gaps[i]` is how many others may stand before word i."""

    words: tuple[Word, ...]
    gaps: tuple[int, ...]


def phrases(form: str, language: str, sets: Mapping[str, tuple[str, ...]]) -> list[Phrase]:
    """Everything a form stands for."""
    return _expanded(form, language, sets, 0)


def _expanded(form: str, language: str, sets: Mapping[str, tuple[str, ...]], depth: int) -> list[Phrase]:
    if depth > _DEEPEST:
        raise FormError("the sets in this form lead in a circle")
    parts = form.split()
    if not parts or len(parts) > _MAX_WORDS:
        raise FormError(f"a form has from one to {_MAX_WORDS} words")
    if parts[0] in GAPS or parts[-1] in GAPS:
        raise FormError("a gap stands between words, not at an end")
    choices: list[list[Phrase]] = []
    gaps: list[int] = []
    gap = 0
    for part in parts:
        if part in GAPS:
            gap += GAPS[part]
            continue
        choices.append(_choices(part, language, sets, depth))
        gaps.append(gap)
        gap = 0
    total = 1
    for each in choices:
        total *= len(each)
    if total > MAX_PHRASES:
        raise FormError("this form stands for too many phrases")
    return [_joined(pieces, gaps) for pieces in product(*choices)]


def _joined(pieces: tuple[Phrase, ...], gaps: list[int]) -> Phrase:
    words = tuple(word for piece in pieces for word in piece.words)
    before: list[int] = []
    for gap, piece in zip(gaps, pieces, strict=True):
        before += [gap, *piece.gaps[1:]]
    return Phrase(words, tuple(before))


def _choices(part: str, language: str, sets: Mapping[str, tuple[str, ...]], depth: int) -> list[Phrase]:
    """Single words together as one choice, longer ones beside it."""
    single: set[str] = set()
    longer: list[Phrase] = []
    for option in part.split("|"):
        for phrase in _option(option, language, sets, depth):
            if len(phrase.words) == 1:
                single |= phrase.words[0]
            else:
                longer.append(phrase)
    return ([Phrase((frozenset(single),), (0,))] if single else []) + longer


def _option(option: str, language: str, sets: Mapping[str, tuple[str, ...]], depth: int) -> list[Phrase]:
    if option.startswith("@"):
        if option[1:] not in sets:
            raise FormError(f"there is no set {option!r}")
        return [p for form in sets[option[1:]] for p in _expanded(form, language, sets, depth + 1)]
    pieces = option.split("-")
    if len(pieces) > 1:
        *heads, last = pieces
        apart = tuple(_word(piece, language) for piece in heads)
        ends = _word(last, language)
        whole = frozenset("".join(fold(h) for h in heads) + end for end in ends)
        return [Phrase((*apart, ends), (0,) * len(pieces)), Phrase((whole,), (0,))]
    return [Phrase((_word(option, language),), (0,))]


def _word(text: str, language: str) -> Word:
    if text.startswith("*"):
        if len(text.partition("/")[0]) < 5:
            raise FormError(f"{text!r}: an end has at least four letters")
        return frozenset("*" + spelling for spelling in _word(text[1:], language))
    word, slash, kind = text.partition("/")
    starred = word.endswith("*")
    bare = word[:-1] if starred else word
    if not bare or not all(c.isalnum() for c in bare) or len(bare) > 40:
        raise FormError(f"{text!r} is not a word")
    if starred:
        if slash or len(bare) < 3:
            raise FormError(f"{text!r}: a beginning has at least three letters and no ending")
        return frozenset({fold(bare) + "*"})
    if not slash:
        return frozenset({fold(bare)})
    if kind not in KINDS:
        raise FormError(f"{text!r}: the ending is one of /{', /'.join(KINDS)}")
    return forms(bare, kind, language)
