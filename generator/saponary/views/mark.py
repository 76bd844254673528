"""The book's mark: the newest recipe's largest portions as beds or rings of a bar, for the icon of the site."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt

from saponary.book.published import Published
from saponary.quantity.rounding import show
from saponary.views.scene import portions_alone

_SIDE, _TOP, _BOTTOM, _RADIUS = 32.0, 5.0, 27.0, 13.0
_OUTLINE = "M3 5H29V23A4 4 0 0 1 25 27H7A4 4 0 0 1 3 23z"
_BEDS = 3
_TILT = 1.6
_EDGE = "#8a7355"
"""Seen on white and on black: contrast 4.5 and 3.6 (computed, WCAG 2.2)."""


def newest(recipes: Iterable[Published]) -> Published | None:
    """The recipe that was poured last, of the lots that are shown; else the first by name."""
    by_name = sorted(recipes, key=lambda recipe: recipe.slug)
    if not by_name:
        return None
    poured = [(day, recipe) for recipe in by_name for _, day in recipe.glance.lots]
    return max(poured, key=lambda pair: pair[0])[1] if poured else by_name[0]


def icon(recipe: Published) -> str:
    """An SVG of a bar with its three largest portions as they are written: beds from below, or in a bar from
    a pipe rings from without, each as large as its share of them."""
    shares = [(one.volume_share, one.shade.cured) for one in portions_alone(recipe)]
    least = sorted((share for share, _ in shares), reverse=True)[:_BEDS][-1:]
    large = [one for one in shares if one[0] >= least[0]][:_BEDS] if least else []
    whole = sum(share for share, _ in large) or 1.0
    parts = [(share / whole, colour) for share, colour in large]
    mould = recipe.resolved.mould
    return _round(parts) if mould is not None and mould.kind == "cylinder" else _cut(parts)


def _cut(parts: Sequence[tuple[float, str]]) -> str:
    rows, at = list[str](), _BOTTOM
    for index, (share, colour) in enumerate(parts):
        high = (_BOTTOM - _TOP) * share
        top = at - high if index < len(parts) - 1 else 0.0
        rows.append(f'<path fill="{colour}" d="{_bed(top, at, _TILT if index % 2 else -_TILT)}"/>')
        at -= high
    drawn = "".join(reversed(rows))
    return _svg(
        f'<clipPath id="bar"><path d="{_OUTLINE}"/></clipPath><g clip-path="url(#bar)">{drawn}</g>'
        f'<path d="{_OUTLINE}" fill="none" stroke="{_EDGE}" stroke-width="2" stroke-linejoin="round"/>'
    )


def _round(parts: Sequence[tuple[float, str]]) -> str:
    rings, left = list[str](), 1.0
    for share, colour in parts:
        rings.append(
            f'<circle cx="16" cy="16" r="{show(_RADIUS * sqrt(max(left, 0.0)), 1)}" fill="{colour}"/>'
        )
        left -= share
    edge = f'<circle cx="16" cy="16" r="{show(_RADIUS, 0)}" fill="none" stroke="{_EDGE}" stroke-width="2"/>'
    return _svg("".join(rings) + edge)


def _svg(drawn: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32">{drawn}</svg>\n'


def _bed(top: float, bottom: float, tilt: float) -> str:
    """A bed from side to side whose top slopes; it reaches under the bed below, which is drawn over it."""
    left, right = show(top - tilt, 1), show(top + tilt, 1)
    return f"M0 {left}C10 {left} 22 {right} {show(_SIDE, 0)} {right}V{show(bottom + 3, 1)}H0z"
