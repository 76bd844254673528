"""The walls of a region with nothing in it, as a veil: one within, nought at the walls, smooth between.

It is the product of what each wall lets through, and each of these depends on the distance from that wall's
tangent. Away from the walls nothing has to be computed, near one of them only that one.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from saponary.draw.pour.flow import CELL, Basin
from saponary.draw.pour.seed import Array

Held = tuple[Array, Array, Array]
"""What is let through at each place, and its slope in x and in y."""
STILL = 2.2 * CELL
"""Nothing moves so near to a wall."""


class _Wall:
    """A profile as a wall: where it lies, how it leans, and what of a height above it is distance from its tangent."""

    def __init__(self, xs: Array, line: Array, inward: float) -> None:
        self.xs, self.line, self.inward = xs, line, inward
        self.lean: Array = np.gradient(line, xs)
        self.scale: Array = inward / np.sqrt(1 + self.lean * self.lean)
        self.turning: Array = np.gradient(self.scale, xs)

    def felt(self, here: slice, edge: float, far: float) -> bool:
        """Whether a height over a stretch of it is nearer to it than `far`."""
        return float(((edge - self.line[here]) * self.scale[here]).min()) < far


class Walls:
    """The walls of a basin; `fade` is over what distance from a wall the batter is let go."""

    def __init__(self, basin: Basin, fade: float) -> None:
        self.fade, self.xs = fade, basin.xs
        self.floor, self.top = _Wall(basin.xs, basin.low, 1.0), _Wall(basin.xs, basin.high, -1.0)
        thick = np.flatnonzero(basin.high - basin.low > 0.3)
        self.sides = (float(basin.xs[thick[0]]), float(basin.xs[thick[-1]])) if len(thick) else (0.0, 0.0)

    def within(
        self, left: float, bottom: float, right: float, top: float
    ) -> Callable[[Array, Array], Held] | None:
        """What the walls let through in a box; None where that is all."""
        far = STILL + self.fade
        first, last = np.searchsorted(self.xs, [left - far, right + far]).tolist()
        here, felt = slice(max(first - 1, 0), last + 1), list[Callable[[Array, Array], Held]]()
        if self.floor.felt(here, bottom, far):
            felt.append(_line(self.floor, here, self.fade))
        if self.top.felt(here, top, far):
            felt.append(_line(self.top, here, self.fade))
        if left - self.sides[0] < far:
            felt.append(_side(self.sides[0], 1.0, self.fade))
        if self.sides[1] - right < far:
            felt.append(_side(self.sides[1], -1.0, self.fade))
        return _all(felt) if felt else None


def _all(felt: list[Callable[[Array, Array], Held]]) -> Callable[[Array, Array], Held]:
    def at(x: Array, y: Array) -> Held:
        held, slope_x, slope_y = felt[0](x, y)
        for one in felt[1:]:
            more, more_x, more_y = one(x, y)
            slope_x, slope_y = slope_x * more + held * more_x, slope_y * more + held * more_y
            held = held * more
        return held, slope_x, slope_y

    return at


def _rise(depth: Array, fade: float) -> tuple[Array, Array]:
    part: Array = np.minimum(np.maximum((depth - STILL) / fade, 0.0), 1.0)
    return part * part * (3 - 2 * part), part * (1 - part) * (6 / fade)


def _line(wall: _Wall, here: slice, fade: float) -> Callable[[Array, Array], Held]:
    xs, line, lean = wall.xs[here], wall.line[here], wall.lean[here]
    scales, turning = wall.scale[here], wall.turning[here]

    def at(x: Array, y: Array) -> Held:
        above, scale = y - np.interp(x, xs, line), np.interp(x, xs, scales)
        held, slope = _rise(above * scale, fade)
        across = above * np.interp(x, xs, turning) - scale * np.interp(x, xs, lean)
        return held, slope * across, slope * scale

    return at


def _side(side: float, inward: float, fade: float) -> Callable[[Array, Array], Held]:
    def at(x: Array, y: Array) -> Held:
        held, slope = _rise((x - side) * inward, fade)
        return held, slope * inward, np.zeros_like(y)

    return at
