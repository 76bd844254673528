"""A part of a book as it was set: its objects in PDF's own syntax, with holes where they name each other.

A hole is told by its place in an object's bytes and by what belongs there, a number: that of another object of
the same fragment, counted from nought, or one of the names below. Keys of the parent tree are counted from
nought in every fragment too; a hole for one holds `KEYS` less the key.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

FONTS = -1
"""The fonts of the whole file, by their names."""
PAGES = -2
"""The root of its pages."""
ABOVE = -3
"""The structure element in which the part lies."""
STAMP = -4
"""What is stamped on the page before its content; nothing where nothing is."""
KEYS = -16

Hole = tuple[int, int]
"""The place in the bytes, and what belongs there."""


class Piece(NamedTuple):
    """Bytes in PDF's syntax, and their holes in order. An object that is a `stream` is never packed into another."""

    data: bytes
    holes: tuple[Hole, ...] = ()
    stream: bool = False


@dataclass(frozen=True)
class SetPage:
    """A page: its object, its size in points, and the boxes in its margin, by their names in the style sheet."""

    at: int
    width: float
    height: float
    margin: tuple[str, ...] = ()


class Target(NamedTuple):
    """A place on a page of the fragment, counted from nought; in points from the lower left."""

    page: int
    x: float
    y: float


class Mark(NamedTuple):
    """A line of the outline."""

    level: int
    title: str
    target: Target


@dataclass(frozen=True)
class Face:
    """A font that was used: its name in content streams, how it is asked for, and by glyph its text and width.

    `lacking` are glyphs that no font has, by character.
    """

    name: str
    family: str
    weight: int
    slanted: bool
    texts: Mapping[int, str]
    widths: Mapping[int, int]
    lacking: Mapping[int, int]


@dataclass(frozen=True)
class Fragment:
    """`kids` are its outermost structure elements; `parents` its part of the parent tree, key by key; `ids` the
    elements that have an ID, `anchors` the places that links may lead to.
    """

    objects: tuple[Piece, ...]
    pages: tuple[SetPage, ...]
    kids: tuple[int, ...]
    parents: tuple[Piece, ...]
    ids: Mapping[str, int]
    anchors: Mapping[str, Target]
    marks: tuple[Mark, ...]
    faces: tuple[Face, ...]
