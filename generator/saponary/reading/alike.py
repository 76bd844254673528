"""Which known names someone may have meant by a word that is none of them.

A slip of the hand comes first, then a name made of the same words, then one that reads alike. What
reads alike by chance only (`oatmeal-powder` and `tomato-powder`) is not named: a wrong answer misleads
more than none. Things may say what kind they are of (`kind`), what they are called (`name`), how they
take alkali (`with_alkali`, '' where they leave it alone) and whether that is known (`known`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from difflib import SequenceMatcher
from typing import cast

_ALIKE = 0.75
"""Shares of letters in common, in each word, from which two names read alike."""
_LONG = 8
"""A word of so many letters may hold two slips."""
_RARE = 2
"""A word that stands in no more names than these tells what is meant; but the last says only what form it has."""

_IDLE = frozenset(
    [
        "oil",
        "oils",
        "fat",
        "butter",
        "wax",
        "powder",
        "powdered",
        "ground",
        "grated",
        "dried",
        "fresh",
        "raw",
        "pure",
        "plain",
        "natural",
        "organic",
        "fine",
        "coarse",
        "virgin",
        "extra",
        "refined",
        "unrefined",
        "cold",
        "pressed",
        "food",
        "grade",
        "kitchen",
        "table",
        "cooking",
        "sea",
        "rock",
        "clay",
        "petals",
        "leaf",
        "root",
    ]
)
"""Words that may be left out of what was written without naming another thing: `table-salt` is salt, but what
`magnesium-salt` or `bath-salt` is, no shorter name tells."""

Known = Iterable[str] | Mapping[str, object]


def nearest(word: str, known: Known) -> str | None:
    """The known name most likely meant by `word`, or None when nothing is close."""
    return next(iter(likely(word, known)), None)


def told_of(name: str, known: Known) -> str:
    """How a thing takes alkali, as its own words say it: '' for one that leaves it alone, or is no thing."""
    return str(_of(name, known, "with_alkali", ""))


def likely(word: str, known: Known) -> tuple[str, ...]:
    """The names that are equally likely meant, best first; none when nothing is close."""
    written, names = word.casefold()[:80], sorted(set(known))
    slips = sorted((distance, name) for name in names if (distance := _slips(written, name.casefold())))
    if slips:
        return tuple(name for distance, name in slips if distance == slips[0][0])
    wanted = [name for name in names if _of(name, known, "known", True)]
    of_kind = _of_kind(written, wanted, known)
    apart = (_of_words(each, of_kind, known) for each in _apart(written, wanted))
    for found in (_of_words(written, of_kind, known), *apart, _of_sound(written, wanted)):
        if found:
            return tuple(found)
    return ()


def _of(name: str, known: Known, what: str, otherwise: object) -> object:
    if not isinstance(known, Mapping):
        return otherwise
    return getattr(cast("Mapping[str, object]", known)[name], what, otherwise)


def _of_kind(written: str, names: list[str], known: Known) -> list[str]:
    """Those of the kind that the word itself tells, as `red-clay` does; all where it tells none."""
    told = words(written) & {str(_of(name, known, "kind", "")) for name in names}
    return [name for name in names if not told or str(_of(name, known, "kind", "")) in told]


def _of_words(written: str, names: list[str], known: Known) -> list[str]:
    """A name that holds every word, else a thing so called, else one whose own words are all among them or
    that has a rare word in common.
    """
    said = words(written)
    if not said:
        return []
    called = {name: words(str(_of(name, known, "name", ""))) for name in names}
    common = {each: sum(each in words(name) for name in names) for each in said}
    last = re.split(r"[\W_]+", written)[-1]
    rare = {each for each, count in common.items() if 0 < count <= _RARE and len(each) > 2 and each != last}
    for found in (
        [name for name in names if said <= words(name)],
        [name for name in names if said <= called[name]],
        [name for name in names if words(name) and words(name) <= said <= words(name) | _IDLE],
        [name for name in names if rare & words(name)],
    ):
        if found:
            return sorted(found, key=len)
    return []


def _apart(written: str, names: list[str]) -> Iterator[str]:
    """A word that is two words of known names without their hyphen, as oatmilk is oat-milk."""
    there = {each for name in names for each in words(name)}
    for at in range(3, len(written) - 2):
        if written[:at] in there and written[at:] in there:
            yield f"{written[:at]}-{written[at:]}"


def _of_sound(written: str, names: list[str]) -> list[str]:
    """Names that read alike in each of their words."""
    alike = sorted((-_ratio(written, name.casefold()), name) for name in names)
    return [alike[0][1]] if alike and -alike[0][0] >= _ALIKE else []


def _ratio(one: str, other: str) -> float:
    ones, others = one.split("-"), other.split("-")
    pairs = zip(ones, others, strict=True) if len(ones) == len(others) else [(one, other)]
    return min(SequenceMatcher(None, a, b).ratio() for a, b in pairs)


def words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.casefold()))


def _slips(written: str, name: str) -> int:
    """How many slips of the hand turn the name into what was written; 0 where it is none of them.

    Each word may hold one slip, a long one two; or the whole holds one, which may be a hyphen.
    """
    if abs(len(written) - len(name)) > 1 + len(name) // _LONG:
        return 0
    whole = distance(written, name)
    if whole <= 1:
        return 1
    ones, others = written.split("-"), name.split("-")
    if len(ones) != len(others):
        return 0
    each = [(distance(a, b), len(b)) for a, b in zip(ones, others, strict=True)]
    fit = all(slips <= (0 if size < 3 else 1 if size < _LONG else 2) for slips, size in each)
    return sum(slips for slips, _ in each) if fit else 0


def distance(one: str, other: str) -> int:
    """Letters left out, put in, taken for another, or two changed about, to turn one into the other."""
    before, last = list[int](), list(range(len(other) + 1))
    for row in _rows(one):
        at, letter, previous = row
        line = [at]
        for place, wanted in enumerate(other, 1):
            least = min(last[place] + 1, line[-1] + 1, last[place - 1] + (letter != wanted))
            if at > 1 and place > 1 and letter == other[place - 2] and previous == wanted:
                least = min(least, before[place - 2] + 1)
            line.append(least)
        before, last = last, line
    return last[-1]


def _rows(text: str) -> Iterator[tuple[int, str, str]]:
    """Each letter with its place, from 1, and the letter before it."""
    for at, letter in enumerate(text, 1):
        yield at, letter, text[at - 2] if at > 1 else ""
