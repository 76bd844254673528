"""A lot's cure as a stretch of time, on one scale of days for all lots of a shelf.

What is done is filled, what is still to come is hatched, and the day of the shelf is an
upright line through all of them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from saponary.draw.charts import svg
from saponary.messages.message import Number
from saponary.messages.speaker import Speaker

_LEFT, _RIGHT = 8.0, svg.WIDTH - 8.0
_HEIGHT, _BAR = 26.0, 19.0
_STEPS = (1, 2, 7, 14, 28, 56, 112, 182, 364, 728, 1820, 3640, 36400)
_MOST = 8
"""Steps of the scale at most, so that their numbers do not touch."""


@dataclass(frozen=True)
class Span:
    """Days from the day of the shelf: to the pour, zero or before, and to the day it is ready."""

    poured: int
    ready: int


@dataclass(frozen=True)
class Axis:
    """The days the scale shows, before and after the day of the shelf, and the step of its marks."""

    first: int
    last: int
    step: int

    def x(self, day: float) -> float:
        held = min(max(day, self.first), self.last)
        return _LEFT + (_RIGHT - _LEFT) * (held - self.first) / (self.last - self.first)

    @property
    def marks(self) -> range:
        start = -(-self.first // self.step) * self.step
        return range(start, self.last + 1, self.step)


def axis_for(spans: Iterable[Span]) -> Axis:
    """A scale that holds all these stretches."""
    there = list(spans)
    first = min([-1, *(s.poured for s in there)])
    last = max([1, *(s.ready for s in there)])
    step = next((s for s in _STEPS if (last - first) / s <= _MOST), last - first)
    return Axis(first, last, step)


def days_axis(axis: Axis, say: Speaker) -> str:
    """The numbers of the scale, to stand over the stretches."""
    parts = [
        svg.label(axis.x(day), 16, say(Number(day)), anchor="middle", strong=day == 0) for day in axis.marks
    ]
    parts += [
        svg.line(axis.x(day), 21, axis.x(day), _HEIGHT, width=2 if day == 0 else 1) for day in axis.marks
    ]
    told = say("chart.days", before=-axis.first, after=axis.last)
    return svg.drawing(_HEIGHT, told, *parts).svg


def span(found: Span, axis: Axis, words: str, key: str) -> str:
    """One lot's stretch; `words` say what it shows, and `key` keeps its ids apart."""
    top = (_HEIGHT - _BAR) / 2
    start, today, end = axis.x(found.poured), axis.x(0), axis.x(found.ready)
    parts = [svg.patterns(key)]
    parts += [svg.line(axis.x(day), 0, axis.x(day), _HEIGHT, faint=True) for day in axis.marks]
    parts.append(svg.block(start, top, today - start, _BAR, svg.fill(key, "solid")))
    parts.append(svg.block(today, top, end - today, _BAR, svg.fill(key, "hatch")))
    parts.append(svg.line(today, 0, today, _HEIGHT, width=2))
    return svg.drawing(_HEIGHT, words, *parts).svg
