"""What a card says and shows, and how large it is. Nothing here needs the library that draws."""

from __future__ import annotations

from dataclasses import dataclass

WIDTH, HEIGHT = 1200, 630
"""Pixels."""


@dataclass(frozen=True)
class Card:
    """`drawing` is SVG of ours, `photo` the bytes of a JPEG; None where the drawing stands alone."""

    book: str
    title: str
    sentence: str
    drawing: str
    photo: bytes | None
