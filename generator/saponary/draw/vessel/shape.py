"""The outline of a jar and of a bottle, and where a filling stands in it.

Lengths are the drawing's own; y grows downward, as in SVG. A vessel is round: what it holds below a
height grows with the square of its width there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sqrt

from saponary.quantity.roots import rising_root
from saponary.quantity.rounding import show
from saponary.schema.methods.method import Vessel

WIDTH, HEIGHT = 1400, 1100
"""Of the drawing."""
_MIDDLE = WIDTH / 2
_SLICES = 400


@dataclass(frozen=True)
class Lid:
    """What closes it: a box with a ribbed edge."""

    left: float
    top: float
    width: float
    height: float
    ribs: int


@dataclass(frozen=True)
class Glass:
    """A vessel from `top` (the rim) to `bottom`; `half` gives half its inner width at a height."""

    top: float
    bottom: float
    half: Callable[[float], float]
    lid: Lid

    def holds(self, above: float) -> float:
        """What there is room for between the bottom and a height, in no unit."""
        step = (self.bottom - above) / _SLICES
        middles = (above + (i + 0.5) * step for i in range(_SLICES))
        return sum(self.half(y) ** 2 for y in middles) * step

    def level(self, full: float) -> float:
        """The height at which it is filled to the share `full` of all that it holds."""
        whole = self.holds(self.top)
        up = rising_root(
            lambda rise: self.holds(self.bottom - rise), 0.0, self.bottom - self.top, full * whole, near=1e-3
        )
        return self.bottom - up

    def outline(self, above: float) -> str:
        """Path data of its inside from a height down to the bottom."""
        steps = [above + (self.bottom - above) * i / _SLICES for i in range(_SLICES + 1)]
        right = [(_MIDDLE + self.half(y), y) for y in steps]
        left = [(2 * _MIDDLE - x, y) for x, y in reversed(right)]
        points = _thinned([*right, *left])
        return "M" + "L".join(f"{show(x, 0)} {show(y, 0)}" for x, y in points) + "z"


def _thinned(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Without those that lie upright between their neighbours."""
    return [
        point
        for i, point in enumerate(points)
        if i in (0, len(points) - 1)
        or not round(points[i - 1][0]) == round(point[0]) == round(points[i + 1][0])
    ]


def _rounded(half: float, bottom: float, radius: float) -> Callable[[float], float]:
    """A straight wall whose foot is rounded."""

    def at(y: float) -> float:
        into = max(0.0, y - (bottom - radius))
        return half - radius + sqrt(max(0.0, radius**2 - into**2))

    return at


def _bottle(y: float) -> float:
    """A neck, a shoulder that curves out, and a straight body."""
    neck, body, shoulder, straight = 74.0, 205.0, 270.0, 450.0
    if y <= shoulder:
        return neck
    if y < straight:
        return neck + (body - neck) * (1 - cos(pi * (y - shoulder) / (straight - shoulder))) / 2
    return _rounded(body, 1060.0, 46.0)(y)


VESSELS: dict[Vessel, Glass] = {
    "jar": Glass(300.0, 1060.0, _rounded(390.0, 1060.0, 70.0), Lid(_MIDDLE - 420, 150.0, 840.0, 152.0, 24)),
    "bottle": Glass(190.0, 1060.0, _bottle, Lid(_MIDDLE - 104, 40.0, 208.0, 152.0, 8)),
}
