"""The laying patterns' common ground: what a pattern is given and what it gives back.

A drawing is painted in order, later patches over earlier ones. A patch may run on beneath
batter that is painted later; then every seam is the edge of one patch only and no gap shows.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.carried import Leg, Line
from saponary.draw.pour.cells import free
from saponary.draw.pour.flow import Basin
from saponary.draw.pour.mould import Mould, rings
from saponary.draw.pour.plan import Load
from saponary.draw.pour.sums import area_under


@dataclass(frozen=True)
class Patch:
    """A painted area of one portion: closed lines, filled even-odd, laid at `step`; `legs` have still to move it."""

    step: int
    name: str
    lines: tuple[Line, ...]
    legs: tuple[Leg, ...] = ()


@dataclass(frozen=True)
class Filling:
    """What a pattern fills: the zone, all that is above its floor, and what it must go round."""

    mould: Mould
    step: int
    basin: Basin
    above: BaseGeometry
    blocked: BaseGeometry  # not counted: embeds, and drops that are painted over the pattern
    loads: tuple[Load, ...]
    free_area: float  # of the whole mould, so that a load's area is its share of this
    tilt: float
    across: float | None
    words: tuple[str, ...]

    @cached_property
    def zone(self) -> BaseGeometry:
        return self.mould.between(self.basin.low, self.basin.high)

    def target(self, load: Load) -> float:
        return load.share * self.free_area

    @property
    def area(self) -> float:
        """Of the whole zone, with what is blocked in it."""
        return area_under(self.basin.high - self.basin.low, self.basin.xs)

    def free(self, shape: BaseGeometry) -> float:
        """How much of a shape counts as this zone's batter."""
        return free(shape.intersection(self.zone), self.blocked)


Pattern = Callable[[Filling], list[Patch]]


def patch(step: int, name: str, shape: BaseGeometry) -> Patch:
    return Patch(step, name, tuple(Line(ring) for ring in rings(shape)))
