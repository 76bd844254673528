"""Finds what is asked of the manual: a topic, a key, a rule, or words in any of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saponary.checks.listed import Listed, listed
from saponary.manual.keys import Key, all_keys
from saponary.manual.topics import Topic, topics


class Hit(NamedTuple):
    """A place where the words stand: what to ask for to read it, and the line itself."""

    ask: str
    line: str


def rule(word: str) -> Listed | None:
    """The rule of this name."""
    return next((one for one in listed() if one.name == word), None)


def keys(word: str) -> tuple[Key, ...]:
    """The keys of this name, or at this path; one text that stands in several places is given once."""
    asked = word.removesuffix(":").strip(".")
    found = [key for key in all_keys() if asked in (key.name, key.dotted)]
    found = found or [key for key in all_keys() if key.dotted.endswith(f".{asked}")]
    first: dict[tuple[str, str, str], Key] = {}
    for key in found:
        first.setdefault((key.model, key.name, key.meaning), key)
    return tuple(first.values())


def places(key: Key) -> tuple[tuple[str, str], ...]:
    """Every file and path where a key of this text stands."""
    same = (key.model, key.name, key.meaning)
    return tuple((one.file, one.dotted) for one in all_keys() if (one.model, one.name, one.meaning) == same)


def below(key: Key) -> tuple[Key, ...]:
    """The keys that stand directly under a key."""
    depth = len(key.path)
    inner = [
        one for one in all_keys() if one.file == key.file and one.path[:depth] == key.path and one != key
    ]
    least = min((sum(part != "NAME" for part in one.path) for one in inner), default=0)
    return tuple(one for one in inner if sum(part != "NAME" for part in one.path) == least)


def topics_on(key: Key) -> tuple[str, ...]:
    """The topics that tell of a key at the top of a file: in prose as `key:`, or in a block at the left edge."""
    if len(key.path) > 1:
        return ()
    written = re.compile(rf"`{re.escape(key.name)}:|^ ? ?{re.escape(key.name)}:", re.MULTILINE)
    counted = [(len(written.findall(one.text)), one.slug) for one in topics()]
    found = sorted((one for one in counted if one[0]), key=lambda one: -one[0])
    return tuple(slug for _, slug in found[:_TOLD])


_TOLD = 2
"""Topics that a key's card names."""


def topics_named(words: Sequence[str]) -> tuple[Topic, ...]:
    """Those whose names hold all of the words, or words that begin so."""
    parts = {one.slug: one.slug.split("-") for one in topics()}
    return tuple(
        one
        for one in topics()
        if all(any(part.startswith(word.casefold()) for part in parts[one.slug]) for word in words)
    )


def search(words: Sequence[str]) -> Iterator[Hit]:
    """Every line of a topic, and every key and rule, that holds words beginning with all of these."""
    wanted = [re.compile(rf"\b{re.escape(word)}", re.IGNORECASE) for word in words]

    def holds(text: str) -> bool:
        return all(word.search(text) for word in wanted)

    for one in topics():
        for line in one.text.splitlines():
            if holds(line):
                yield Hit(one.slug, line.strip())
    seen: set[tuple[str, str]] = set()
    for key in all_keys():
        if holds(f"{key.dotted} {key.meaning}") and (key.name, key.meaning) not in seen:
            seen.add((key.name, key.meaning))
            yield Hit(key.dotted, key.meaning)
    for each in listed():
        if holds(f"{each.name} {each.about}"):
            yield Hit(each.name, each.about)


def names() -> tuple[str, ...]:
    """All that may be asked for by name."""
    keyed = dict.fromkeys(key.name for key in all_keys())
    return (*(one.slug for one in topics()), *keyed, *(one.name for one in listed()))
