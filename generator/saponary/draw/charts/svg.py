"""What every chart shares: its type, its patterns, and how a length is written.

A chart is drawn 288 units wide, the room a page has on a phone 320 px wide, with text of
14 units: it is never shown smaller than that. Ink is `currentColor`, so a chart is dark
on paper and light on a dark page.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from html import escape

from saponary.quantity.rounding import show

WIDTH = 288
TEXT = 14


@dataclass(frozen=True)
class Chart:
    """An inline SVG, and what it shows in words."""

    svg: str
    description: str


@lru_cache(maxsize=4096)
def at(value: float) -> str:
    """A length or position, to a hundredth."""
    text = show(value, 2)
    return text.rstrip("0").rstrip(".") if "." in text else text


def label(x: float, y: float, text: str, *, anchor: str = "start", strong: bool = False) -> str:
    weight = ' font-weight="700"' if strong else ""
    return f'<text x="{at(x)}" y="{at(y)}" text-anchor="{anchor}"{weight}>{escape(text)}</text>'


def line(
    x1: float, y1: float, x2: float, y2: float, *, width: float = 1, dashes: str = "", faint: bool = False
) -> str:
    more = (f' stroke-dasharray="{dashes}"' if dashes else "") + (' stroke-opacity="0.35"' if faint else "")
    return (
        f'<line x1="{at(x1)}" y1="{at(y1)}" x2="{at(x2)}" y2="{at(y2)}" '
        f'stroke="currentColor" stroke-width="{at(width)}"{more}/>'
    )


def block(x: float, y: float, width: float, height: float, fill: str) -> str:
    """A filled box with an outline of its own, so that a pale pattern still has an edge."""
    return (
        f'<rect x="{at(x)}" y="{at(y)}" width="{at(max(width, 0.0))}" height="{at(height)}" '
        f'fill="{fill}" stroke="currentColor" stroke-width="1"/>'
    )


PATTERNS = ("solid", "hatch", "dots", "empty", "cross", "bars")
_TILES = {
    "hatch": '<path d="M0 6L6 0" stroke="currentColor" stroke-width="1.5"/>',
    "dots": '<circle cx="3" cy="3" r="1.1" fill="currentColor"/>',
    "cross": '<path d="M0 6L6 0M0 0L6 6" stroke="currentColor" stroke-width="0.8"/>',
    "bars": '<path d="M0 3H6" stroke="currentColor" stroke-width="1.2"/>',
}


@cache
def patterns(prefix: str) -> str:
    """The definitions of the patterns; `prefix` keeps their ids apart from another chart's."""
    return "<defs>" + "".join(
        f'<pattern id="{prefix}-{name}" width="6" height="6" patternUnits="userSpaceOnUse">{marks}</pattern>'
        for name, marks in _TILES.items()
    ) + "</defs>"  # fmt: skip


def fill(prefix: str, pattern: str) -> str:
    if pattern == "solid":
        return "currentColor"
    return "none" if pattern == "empty" else f"url(#{prefix}-{pattern})"


def drawing(height: float, description: str, *parts: str) -> Chart:
    """The chart as a picture with a description."""
    head = (
        f'<svg class="chart" viewBox="0 0 {WIDTH} {at(height)}" width="{WIDTH}" height="{at(height)}" role="img" '
        f'aria-label="{escape(description)}" font-size="{TEXT}" fill="currentColor">'
    )
    return Chart(head + "".join(parts) + "</svg>", description)
