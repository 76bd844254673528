"""A logo: an SVG drawing of the maker's, made anew of its shapes alone.

What a drawing program leaves in a file (names, paths on a disk, comments), and whatever runs or fetches, is not
among what is taken over.
"""

from __future__ import annotations

import re
from typing import NamedTuple
from xml.etree import ElementTree as Xml

_NS = "{http://www.w3.org/2000/svg}"
_SHAPES = frozenset({"svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_SHADES = frozenset({"defs", "linearGradient", "radialGradient", "stop", "clipPath"})
_KEPT = frozenset(
    [
        "viewBox",
        "d",
        "x",
        "y",
        "x1",
        "x2",
        "y1",
        "y2",
        "cx",
        "cy",
        "fx",
        "fy",
        "r",
        "rx",
        "ry",
        "width",
        "height",
        "points",
        "transform",
        "fill",
        "fill-rule",
        "fill-opacity",
        "stroke",
        "stroke-width",
        "stroke-linecap",
        "stroke-linejoin",
        "stroke-dasharray",
        "stroke-opacity",
        "stroke-miterlimit",
        "opacity",
        "offset",
        "stop-color",
        "stop-opacity",
        "gradientUnits",
        "gradientTransform",
        "clip-path",
        "clip-rule",
        "color",
        "id",
    ]
)
_LEFT_OUT = frozenset({"title", "desc", "metadata"})
_FETCHES = re.compile(r"url\((?!\s*['\"]?#)|[a-z][a-z0-9+.\-]*://", re.IGNORECASE)
MOST = 100_000
"""Letters of a logo."""


class LogoFault(Exception):
    """Why a logo cannot be used, on which line, and what to do."""

    def __init__(self, message: str, hint: str, line: int = 1, column: int = 1) -> None:
        super().__init__(message)
        self.message, self.hint, self.line, self.column = message, hint, line, column


class Logo(NamedTuple):
    """A logo made ready, and its size in its own units."""

    svg: str
    width: float
    height: float


def logo_of(text: str) -> Logo:
    """A logo from the text of its file. Raises LogoFault."""
    if len(text) > MOST:
        raise LogoFault(f"this logo has more than {MOST:,} letters", "draw it with fewer points")
    if "<!DOCTYPE" in text or "<!ENTITY" in text:
        raise LogoFault("this logo declares a document type", "take the line that begins with <!DOCTYPE out")
    try:
        top = Xml.fromstring(text)
    except Xml.ParseError as error:
        line, column = error.position
        raise LogoFault("this logo is not SVG", "save it as plain SVG", line, column + 1) from error
    if top.tag != f"{_NS}svg":
        raise LogoFault("this logo is not SVG", "save it as plain SVG")
    width, height = _size(top)
    return Logo(_made(top, text), width, height)


def _size(top: Xml.Element) -> tuple[float, float]:
    box = re.split(r"[\s,]+", top.get("viewBox", "").strip())
    try:
        _, _, width, height = (float(one) for one in box)
    except ValueError:
        width = height = 0.0
    if not (0 < width < 1e6 and 0 < height < 1e6):
        raise LogoFault(
            "this logo does not say its size", 'give its svg a viewBox, such as viewBox="0 0 32 32"'
        )
    return width, height


def _made(element: Xml.Element, text: str, deep: int = 0) -> str:
    name = _own_name(element.tag).removeprefix(_NS)
    if name not in _SHAPES | _SHADES or deep > 40:
        at = re.search(rf"<(?:\w+:)?{re.escape(name)}\b", text)
        line = text.count("\n", 0, at.start()) + 1 if at else 1
        known = "shapes and gradients alone are taken: turn text and pictures into paths"
        raise LogoFault(f"a logo holds no {name or 'such'!r}", known, line)
    own = {key: value for key, value in element.attrib.items() if key in _KEPT and not _FETCHES.search(value)}
    own |= _styled(element.get("style", ""))
    from xml.sax.saxutils import quoteattr  # it imports what speaks to the net, and few books have a logo

    said = "".join(f" {key}={quoteattr(value)}" for key, value in own.items())
    space = ' xmlns="http://www.w3.org/2000/svg"' if deep == 0 else ""
    inner = "".join(_made(one, text, deep + 1) for one in element if not _is_left_out(one))
    return f"<{name}{space}{said}>{inner}</{name}>" if inner else f"<{name}{space}{said}/>"


def _styled(style: str) -> dict[str, str]:
    """Attributes for what a style says, as far as they are known."""
    pairs = (part.partition(":") for part in style.split(";"))
    found = {key.strip(): value.strip() for key, _, value in pairs}
    return {key: value for key, value in found.items() if key in _KEPT and not _FETCHES.search(value)}


def _is_left_out(element: Xml.Element) -> bool:
    """What is told about a drawing, and what a program keeps for itself."""
    tag = _own_name(element.tag)
    return not tag.startswith(_NS) or tag.removeprefix(_NS) in _LEFT_OUT


def _own_name(tag: object) -> str:
    """The name of an element; of a comment, whose tag is a function, none."""
    return tag if isinstance(tag, str) else ""
