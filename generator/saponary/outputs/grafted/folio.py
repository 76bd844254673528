"""The numbers of pages, stamped where the style has put them, as artifacts of pagination (ISO 32000-1, 14.8.2.2)."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import pydyf

from saponary.outputs.grafted.internals import POINTS

DIGITS = "0123456789"

_PLACED = re.compile(rb"1 0 0 -1 (-?[\d.]+) (-?[\d.]+) Tm")
_SIZED = re.compile(rb"/(\w+) ([\d.]+) Tf")
_SHOWN = re.compile(rb"\[(.*)\] TJ", re.DOTALL)
_GLYPHS = re.compile(rb"<([0-9a-f]*)>")
_KERNS = re.compile(rb">(-?[0-9.]+)")


@dataclass(frozen=True)
class Folio:
    """How a number is set: in which box of the margin, its font and size, its base line and its edge in pixels
    from the upper left, the digits' glyphs and their widths in thousandths of the size.

    `edge` is where it begins, or where it ends if it stands at the `end`.
    """

    box: str
    font: str
    size: float
    edge: float
    base: float
    end: bool
    glyphs: tuple[int, ...]
    widths: tuple[int, ...]


def read_folio(box: str, lines: Sequence[bytes], widths: Mapping[str, Mapping[int, int]]) -> Folio:
    """Find how all ten digits were set, the last text of a page's content. Raises ValueError.

    `widths` are those of glyphs, by the names of fonts.
    """
    place = font = None
    for line in lines:
        if (found := _PLACED.fullmatch(line)) is not None:
            place = float(found[1]), float(found[2])
        elif (found := _SIZED.fullmatch(line)) is not None:
            font = found[1].decode(), float(found[2])
        elif (found := _SHOWN.fullmatch(line)) is not None and place and font:
            digits = b"".join(_GLYPHS.findall(found[1]))
            glyphs = tuple(int(digits[at : at + 4], 16) for at in range(0, len(digits), 4))
            if len(glyphs) == len(set(glyphs)) == len(DIGITS):
                broad = tuple(widths[font[0]][glyph] for glyph in glyphs)
                end = "right" in box
                closer = sum(float(number) for number in _KERNS.findall(found[1]))
                edge = place[0] + (sum(broad) - closer) * font[1] / 1000 if end else place[0]
                return Folio(box, *font, edge, place[1], end, glyphs, broad)
    raise ValueError(f"the digits in {box} were not found")


def stamp(folio: Folio, number: int, height: float) -> Any:
    """A content stream of pydyf that sets a number on a page so many points high."""
    digits = [int(digit) for digit in str(number)]
    width = sum(folio.widths[digit] for digit in digits) * folio.size / 1000
    left = folio.edge - width if folio.end else folio.edge
    made: Any = pydyf.Stream()
    made.begin_marked_content("Artifact", pydyf.Dictionary({"Type": "/Pagination"}))
    made.push_state()
    made.set_matrix(1, 0, 0, -1, 0, height)
    made.set_matrix(POINTS, 0, 0, POINTS, 0, 0)
    made.set_color_rgb(0, 0, 0)
    made.begin_text()
    made.set_text_matrix(1, 0, 0, -1, left, folio.base)
    made.set_font_size(folio.font, folio.size)
    made.show_text("<" + "".join(f"{folio.glyphs[digit]:04x}" for digit in digits) + ">")
    made.end_text()
    made.pop_state()
    made.end_marked_content()
    return made
