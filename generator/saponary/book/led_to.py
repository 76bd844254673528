"""Which recipes the texts of one may lead to, told without setting them as a page would."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import is_dataclass
from html import unescape
from typing import cast
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
    if isinstance(value, str):
        yield value
    for part in _parts(value):
        yield from _texts(part)


def _parts(value: object) -> Iterable[object]:
    if isinstance(value, BaseModel) or (is_dataclass(value) and not isinstance(value, type)):
        return vars(value).values()
    if isinstance(value, Mapping):
        return cast("Mapping[object, object]", value).values()
    return cast("Sequence[object]", value) if isinstance(value, list | tuple) else ()
