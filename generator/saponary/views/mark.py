"""The book's mark: the newest recipe's largest portions as beds in a bar, for the icon of the site."""

from __future__ import annotations

from collections.abc import Iterable

from saponary.book.published import Published
from saponary.quantity.rounding import show
from saponary.views.scene import portions_alone

_SIDE, _TOP, _BOTTOM = 32.0, 5.0, 27.0
_BEDS = 3
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
    """An SVG of a bar with up to three beds, each as high as its portion's share of them."""
    shares = [(one.volume_share, one.shade.cured) for one in portions_alone(recipe)]
    beds = sorted(shares, key=lambda bed: -bed[0])[:_BEDS]
    whole = sum(share for share, _ in beds) or 1.0
    rows, at = list[str](), _BOTTOM
    for share, colour in beds:
        high = (_BOTTOM - _TOP) * share / whole
        rows.append(f'<path fill="{colour}" d="{_bed(at - high, at)}"/>')
        at -= high
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32">'
        '<clipPath id="bar"><rect x="3" y="5" width="26" height="22" rx="4"/></clipPath>'
        f'<g clip-path="url(#bar)">{"".join(rows)}</g>'
        f'<rect x="3" y="5" width="26" height="22" rx="4" fill="none" stroke="{_EDGE}" stroke-width="2"/></svg>\n'
    )


def _bed(top: float, bottom: float) -> str:
    """A bed from side to side whose top is not quite level; it reaches under the bed above."""
    return f"M0 {show(top, 1)}C8 {show(top - 2, 1)} 12 {show(top + 2, 1)} 16 {show(top, 1)}S26 {show(top - 2, 1)} {show(_SIDE, 0)} {show(top, 1)}V{show(bottom + 3, 1)}H0z"
