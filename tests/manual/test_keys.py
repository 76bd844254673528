"""Every key that may be written is explained, and its example reads clean in a small book."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import yaml

from saponary import __version__
from saponary.manual.bases import BASES, FILES, PHOTOS, book_of, merged
from saponary.manual.held import proved
from saponary.manual.keys import PLACES, Key, all_keys, keys_of
from saponary.manual.sample import ALLOWED
from saponary.reading.plain import is_list, is_map

HOW = (
    "write it below the field in its model: what it means, a full stop, and `Example:` with lines of the file"
)
KEYS = all_keys()


def examples() -> list[Key]:
    """One key of each example: the first that shows it."""
    first: dict[tuple[str, str], Key] = {}
    for key in KEYS:
        first.setdefault((key.file, key.example), key)
    return list(first.values())


def held(data: object) -> Iterator[str]:
    """Every key of a text."""
    if is_map(data):
        for key, value in data.items():
            yield str(key)
            yield from held(value)
    elif is_list(data):
        for value in data:
            yield from held(value)


def same(key: Key) -> tuple[str, str, str]:
    """One text may stand in several places and kinds of file."""
    return key.model, key.name, key.meaning


def test_every_kind_of_file_has_keys_a_place_and_a_base() -> None:
    assert set(PLACES) == set(BASES) == set(FILES)
    assert all(len(keys_of(file)) > 2 for file in PLACES)


@pytest.mark.parametrize("file", PLACES)
def test_every_key_has_a_text(file: str) -> None:
    lacking = [f"{key.model}.{key.name}" for key in keys_of(file) if not key.meaning.endswith(".")]
    assert lacking == [], HOW


@pytest.mark.parametrize("file", PLACES)
def test_every_word_that_a_key_may_take_is_told(file: str) -> None:
    lacking = [
        f"{key.model}.{key.name}: {word}"
        for key in keys_of(file)
        for word in key.words
        if f"`{word}`" not in key.meaning
    ]
    assert lacking == [], "name each word of an enumeration in the key's text, in backticks"


@pytest.mark.parametrize("file", PLACES)
def test_every_key_is_shown_by_its_example(file: str) -> None:
    shown = {same(key) for key in KEYS if key.name in held(yaml.load(key.example, yaml.BaseLoader))}
    lacking = [key.dotted for key in keys_of(file) if same(key) not in shown]
    assert lacking == [], f"{HOW}; a key without one of its own needs to stand in that of the key above it"


@pytest.mark.parametrize("key", examples(), ids=lambda key: f"{key.file}: {key.dotted}")
def test_an_example_reads_clean(key: Key) -> None:
    found = proved(book_of(key.file, key.example), PHOTOS).findings
    assert [f"{one.place} {one.message}" for one in found if one.rule not in ALLOWED] == [], key.example


def test_an_example_takes_the_place_of_what_the_base_says() -> None:
    assert "superfat: 7 %\n" in merged("recipe", "superfat: 7 %")
    assert merged("recipe", "superfat: 7 %").count("superfat:") == 1
    assert "oils:" not in merged("class", "mould: shells")


def test_no_key_came_later_than_today() -> None:
    today = tuple(map(int, __version__.split(".")[:2]))
    assert all(tuple(map(int, key.since.split("."))) <= today for key in KEYS)
