"""What makes words no claim whatever they say: a safety notice, a name of a place or person, a word that is no promise.

A safety notice is a whole sentence ("Stop using it if a rash appears"). A place is a name in
capitals that ends with a word for places ("Sunburn Bay", "the Healing Well"), outside a line that
is written in capitals throughout, as titles are. A person's name stands behind a title ("Mrs Healing").
"""

from __future__ import annotations

from collections.abc import Sequence

from saponary.words.sentences import Word

_SMALL = 3
"""Letters of the words that titles write small: of, the, and."""
_NAME = 2
"""Words of a place's name between what was found and the word for places."""


def in_a_place_name(words: Sequence[Word], start: int, end: int, shown: str, places: frozenset[str]) -> bool:
    """Whether `start`..`end` is part of a place's name."""
    if not places or not all(_capital(word, shown) for word in words[start : end + 1]):
        return False
    if _is_title(words, shown):
        return False
    if any(word.text in places for word in words[start : end + 1]):
        return True
    after = words[end + 1 : end + 1 + _NAME]
    before: Sequence[Word] = words[start - 1 : start] if start else []
    named = [word for word in (*before, *after) if word.text in places and _capital(word, shown)]
    return bool(named)


def in_a_persons_name(
    words: Sequence[Word], start: int, end: int, shown: str, titles: frozenset[str]
) -> bool:
    """Whether `start`..`end` is one name in capitals behind a word such as Mrs."""
    if start != end or not start or not _capital(words[start], shown):
        return False
    before = words[start - 1]
    return before.text in titles and _capital(before, shown) and not words[start].comma


def _capital(word: Word, shown: str) -> bool:
    return shown[word.start].isupper() or shown[word.start].isdigit()


def _is_title(words: Sequence[Word], shown: str) -> bool:
    return all(_capital(word, shown) for word in words if word.end - word.start > _SMALL)
