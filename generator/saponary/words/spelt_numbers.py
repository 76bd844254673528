"""Numbers written as words: `one hundred and forty-two`, `hundertachtunddreißig`, `quatre-vingts`, `medio`.

A language's table gives the value of each plain word; what is said here is how they are put
together: tens and ones are added, a hundred or a thousand multiplies what stands before it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

_JOINS = frozenset(("and", "a", "und", "et", "y"))
_LONGEST = 40
_SCORES = ("vingt", "vingts")
"""Behind a four: `quatre-vingts` is four score."""


def parts(word: str, numbers: Mapping[str, float]) -> tuple[str, ...] | None:
    """A folded word as the number words it is made of (German writes them as one), or None."""
    if word in numbers:
        return (word,)
    if len(word) > _LONGEST or not word.startswith(tuple(numbers)):
        return None
    return _parted(word, frozenset(numbers))


@lru_cache(maxsize=4096)
def _parted(word: str, known: frozenset[str]) -> tuple[str, ...] | None:
    best: list[tuple[str, ...] | None] = [None] * (len(word) + 1)
    best[0] = ()
    for end in range(1, len(word) + 1):
        for start in range(max(0, end - 12), end):
            before, piece = best[start], word[start:end]
            if before is None or best[end] is not None:
                continue
            if piece in known and len(piece) > 1:
                best[end] = (*before, piece)
            elif piece == "und" and before:
                best[end] = before
    found = best[-1]
    return found if found and len(found) > 1 and "und" not in found else None


def value(words: Sequence[str], numbers: Mapping[str, float]) -> float:
    """What number words in order amount to; `quatre vingt` is eighty, `ein halbes` a half."""
    whole = now = 0.0
    for index, each in enumerate(words):
        number = numbers.get(each)
        if number is None:
            continue
        if number == 1000:
            whole, now = whole + max(now, 1.0) * number, 0.0
        elif number == 100:
            now = max(now, 1.0) * number
        elif each in _SCORES and now % 100 == 4:
            now += 4 * number - 4
        elif 0 < number < 1 and words[index - 1] in numbers and now == 1:
            now = number
        else:
            now += number
    return whole + now


def joins(word: str) -> bool:
    """Whether a word may stand between two number words: the `and` of `hundred and forty`."""
    return word in _JOINS
