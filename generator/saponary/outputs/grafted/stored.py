"""Fragments as bytes, and back: a line of JSON that says what lies where, then all objects in a row.

What does not hold to this form is no fragment. Neither is one that is too large, that has a hole where nothing
fits, or whose objects say more than those that WeasyPrint writes for a page: a book's cache may be a stranger's,
and its pages show and link, and do nothing else.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from saponary.outputs.grafted.fragment import (
    ABOVE,
    FONTS,
    KEYS,
    PAGES,
    STAMP,
    Face,
    Fragment,
    Hole,
    Mark,
    Piece,
    SetPage,
    Target,
)
from saponary.outputs.grafted.only_shows import only_shows

MOST_BYTES = 100_000_000
MOST_OBJECTS = 200_000
MOST_PAGES = 5_000
_NAMES = frozenset({FONTS, PAGES, ABOVE, STAMP})


class NoFragment(ValueError):
    """Bytes that are not a fragment."""


def to_bytes(fragment: Fragment) -> bytes:
    head = {
        "objects": [_shape(one) for one in fragment.objects],
        "parents": [_shape(one) for one in fragment.parents],
        "pages": [[one.at, one.width, one.height, one.margin] for one in fragment.pages],
        "kids": fragment.kids,
        "ids": fragment.ids,
        "anchors": {name: [one.page, one.x, one.y] for name, one in fragment.anchors.items()},
        "marks": [[m.level, m.title, m.target.page, m.target.x, m.target.y] for m in fragment.marks],
        "faces": [asdict(face) for face in fragment.faces],
    }
    data = b"".join(one.data for one in (*fragment.objects, *fragment.parents))
    return json.dumps(head, separators=(",", ":")).encode() + b"\n" + data


def _shape(piece: Piece) -> list[int | bool]:
    return [len(piece.data), piece.stream, *(number for hole in piece.holes for number in hole)]


def from_bytes(data: bytes, *, ours: bool = False) -> Fragment:
    """Raises NoFragment where the bytes are none. Of those made in this build, which are `ours`, it is not asked
    what their objects say.
    """
    try:
        fragment = _read(data)
        _hold(ours or only_shows((*fragment.objects, *fragment.parents)))
    except (ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError) as error:
        raise NoFragment(str(error)) from error
    return fragment


def _read(data: bytes) -> Fragment:
    _hold(len(data) <= MOST_BYTES)
    line, _, body = data.partition(b"\n")
    head: dict[str, Any] = json.loads(line)
    shapes = [*head["objects"], *head["parents"]]
    _hold(len(shapes) <= MOST_OBJECTS and len(head["pages"]) <= MOST_PAGES)
    keys, count = len(head["parents"]), len(head["objects"])
    pieces = list(_pieces(body, shapes, count, keys))
    fragment = Fragment(
        objects=tuple(pieces[:count]),
        parents=tuple(pieces[count:]),
        pages=tuple(
            SetPage(_below(at, count), _real(width), _real(height), tuple(map(_text, margin)))
            for at, width, height, margin in head["pages"]
        ),
        kids=tuple(_below(kid, count) for kid in head["kids"]),
        ids={_text(name): _below(at, count) for name, at in head["ids"].items()},
        anchors={_text(name): _target(one, head) for name, one in head["anchors"].items()},
        marks=tuple(
            Mark(_below(one[0], 100), _text(one[1]), _target(one[2:], head)) for one in head["marks"]
        ),
        faces=tuple(_face(one) for one in head["faces"]),
    )
    _hold(not any(piece.stream for piece in fragment.parents))
    return fragment


def _pieces(body: bytes, shapes: list[list[Any]], count: int, keys: int) -> Iterator[Piece]:
    start = 0
    for length, stream, *numbers in shapes:
        _hold(isinstance(stream, bool))
        end = start + _below(length, len(body) - start + 1)
        yield Piece(body[start:end], tuple(_holes(numbers, length, count, keys)), stream)
        start = end
    _hold(start == len(body))


def _holes(numbers: list[Any], length: int, count: int, keys: int) -> Iterator[Hole]:
    last = 0
    for place, what in zip(numbers[::2], numbers[1::2], strict=True):
        _hold(last <= _below(place, length + 1))
        _hold(type(what) is int)
        _hold(0 <= what < count or what in _NAMES or KEYS - keys < what <= KEYS)
        last = place
        yield place, what


def _target(one: Sequence[Any], head: dict[str, Any]) -> Target:
    page, x, y = one
    return Target(_below(page, len(head["pages"])), _real(x), _real(y))


def _face(one: dict[str, Any]) -> Face:
    name = _text(one["name"])
    _hold(re.fullmatch(r"[A-Z]{6}", name) is not None)
    return Face(
        name=name,
        family=_text(one["family"]),
        weight=_below(one["weight"], 1_001),
        slanted=bool(one["slanted"]),
        texts={_glyph(glyph): _text(text) for glyph, text in one["texts"].items()},
        widths={_glyph(glyph): _below(width, 1_000_000) for glyph, width in one["widths"].items()},
        lacking={int(character): _glyph(glyph) for character, glyph in one["lacking"].items()},
    )


def _glyph(value: Any) -> int:
    return _below(int(value), 65_536)


def _below(value: Any, limit: int) -> int:
    _hold(type(value) is int and 0 <= value < limit)
    return int(value)


def _real(value: Any) -> float:
    _hold(type(value) in (int, float) and abs(value) < 1e6)
    return float(value)


def _text(value: Any) -> str:
    _hold(isinstance(value, str) and len(value) < 10_000)
    return str(value)


def _hold(true: bool) -> None:
    if not true:
        raise NoFragment("it does not hold to the form")
