"""Which recipes the texts of one may lead to, told without setting them as a page would."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import is_dataclass
from functools import cache
from html import unescape
from typing import Any
from urllib.parse import unquote

from pydantic import BaseModel

_FILE = re.compile(r"([a-z0-9]+(?:-[a-z0-9]+)*)\.md")


def led_to(*values: object) -> tuple[str, ...]:
    """The names of all recipe files that texts in these values name, sorted.

    A link may write its address with escapes, entities and percent signs. Whatever names a file so counts, be it
    in a link or not: rather one recipe more than one less.
    """
    found: set[str] = set()
    for text in _texts(values):
        if "[" in text:
            found.update(_FILE.findall(unquote(unescape(text.replace("\\", "")))))
    return tuple(sorted(found))


def _texts(value: object) -> Iterator[str]:
    """Every text in a value, however deep."""
    waiting = [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str):
            yield one
        elif one is not None:
            kind: type = type(one)
            waiting += _parts_of(kind)(one)


@cache
def _parts_of(kind: type[object]) -> Callable[[Any], Iterable[object]]:
    """What tells the parts of values of a kind; asked once for each kind, since most values have none."""
    if issubclass(kind, BaseModel) or is_dataclass(kind):
        return _of_record
    if issubclass(kind, Mapping):
        return _of_map
    return iter if issubclass(kind, list | tuple) else _none


def _of_record(value: object) -> Iterable[object]:
    return vars(value).values()


def _of_map(value: Mapping[object, object]) -> Iterable[object]:
    return value.values()


def _none(value: object) -> Iterable[object]:
    return ()
