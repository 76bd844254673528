"""Text measured by the fonts' own metrics, and broken into lines."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from io import BytesIO
from typing import Any

from saponary.assets.fonts import font_files

INCH = 25.4
POINT = INCH / 72.0
REGULAR, BOLD = "SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf"
NAME = "SourceSerifPro-Regular.ttf"
SAFE = 1.01
"""Room kept for what the measuring does not see, such as kerning."""


_SPACES = re.compile(r"[ \n\t]+")


@dataclass(frozen=True)
class Face:
    """A font's advances and the height of its small letters, in parts of its size."""

    advances: Mapping[int, float]
    missing: float
    x_height: float

    def width(self, text: str) -> float:
        return sum(self.advances.get(ord(char), self.missing) for char in text)


@cache
def face(name: str) -> Face:
    """Read from the font file itself."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    font: Any = TTFont(BytesIO(font_files()[name]), lazy=True)
    em, metrics = font["head"].unitsPerEm, font["hmtx"]
    advances = {code: metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()}
    return Face(advances, metrics[".notdef"][0] / em, font["OS/2"].sxHeight / em)


def wide(text: str, font: str, size: float) -> float:
    """How wide a run of text is, with some room to be safe, in the unit of `size`."""
    return face(font).width(text) * size * SAFE


def lines(text: str, font: str, size: float, room: float) -> Iterator[str]:
    """Broken at spaces, and not at those that keep a number and its unit together; a word too long for a line
    stands alone on one.
    """
    line, long, space = "", 0.0, _wide(font, " ")
    for word in _SPACES.split(text.strip()):
        longer = long + space + _wide(font, word) if line else _wide(font, word)
        if line and longer * size * SAFE > room:
            yield line
            line, long = word, _wide(font, word)
        else:
            line, long = f"{line} {word}" if line else word, longer
    if line:
        yield line


@lru_cache(maxsize=8192)
def _wide(font: str, word: str) -> float:
    return face(font).width(word)
