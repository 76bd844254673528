"""A shown text as words in sentences.

A full stop ends a sentence where a space follows and the word before it is no
abbreviation and the next does not begin small; so do !, ?, a semicolon and an empty line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from saponary.words.inflect import fold

_WORD = re.compile(r"[^\W_]+(?:[\u0300-\u036f]+[^\W_]*)*")
_EMPTY_LINE = re.compile(r"\n[ \t\r]*\n|\r[ \t]*\r")
_STRONG = re.compile(r"[!?…][!?….]*[\"'”’»“)\]]*\s|;")
_STOP = re.compile(r"\.[\"'”’»“)\]]*\s")
_LONGEST = 300


class Word(NamedTuple):
    """One word, folded, and where it stands in the shown text; whether a comma stands before it."""

    text: str
    start: int
    end: int
    comma: bool


class Sentence(NamedTuple):
    """Words in order."""

    words: list[Word]

    def text(self, shown: str) -> str:
        """The sentence as shown, cut where it is too long for a message."""
        start, end = self.words[0].start, self.words[-1].end
        said = " ".join(shown[start : min(end, start + _LONGEST)].split())
        return said + "…" if end - start > _LONGEST else said


@lru_cache(maxsize=64)
def sentences(shown: str, abbreviations: frozenset[str]) -> Sequence[Sentence]:
    """The sentences of a text. Those of one recipe stay at hand: several rules read them."""
    return tuple(_sentences(shown, abbreviations))


def _sentences(shown: str, abbreviations: frozenset[str]) -> Iterator[Sentence]:
    words: list[Word] = []
    last = 0
    for found in _WORD.finditer(shown):
        start, end = found.span()
        between, word = shown[last:start] if words else "", found[0]
        if words and _ends(between, words[-1].text, word, abbreviations):
            yield Sentence(words)
            words = []
        words.append(Word(_folded(word), start, end, "," in between))
        last = end
    if words:
        yield Sentence(words)


def _folded(word: str) -> str:
    return fold(word) if len(word) <= 60 else ""


def _ends(between: str, before: str, after: str, abbreviations: frozenset[str]) -> bool:
    if between in (" ", "-", "'", "’", ", ", "\n"):
        return False
    if _EMPTY_LINE.search(between) or _STRONG.search(between):
        return True
    if not _STOP.search(between):
        return False
    return not after[0].islower() and before not in abbreviations and len(before) > 1
