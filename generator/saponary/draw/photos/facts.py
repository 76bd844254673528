"""What is known of a photo, what is wrong with it, and what is published of it; and the limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["jpeg", "png", "webp", "heif"]

KIND_NAMES: dict[Kind, str] = {"jpeg": "JPEG", "png": "PNG", "webp": "WebP", "heif": "HEIC"}

WIDTHS = (240, 480, 720, 960, 1600)
"""Pixels: for a table of lots, for a phone, for one with finer pixels, for a desk, and for a desk with finer ones."""

MAX_BYTES = 120_000_000
# A JPEG is decoded at a fraction of its size, so it may be larger than what must be held whole.
MAX_PIXELS: dict[Kind, int] = {
    "jpeg": 200_000_000,
    "png": 80_000_000,
    "webp": 80_000_000,
    "heif": 80_000_000,
}


@dataclass(frozen=True)
class PhotoFacts:
    """What the head of the file says: the format really found, and the size as it is stored.

    A photo taken with the camera on its side is stored lying; it is published upright.
    """

    kind: Kind
    width: int
    height: int


@dataclass(frozen=True)
class PhotoFault:
    """Why a photo cannot be used, and what to do about it."""

    message: str
    hint: str


@dataclass(frozen=True)
class Variant:
    """One published file: its name in the site, its media type, its size and its bytes."""

    name: str
    type: str
    width: int
    height: int
    data: bytes
