"""The swirl: a tool drawn through the batter, which drags along what it passes.

A hanger is a wire that loops through the depth; a comb has tines side by side; a skewer is
one point led by hand. Around each point of the tool the batter is carried with it and flows
back at both sides, as about a rod in a thick fluid, so every portion keeps its area.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.carried import Line
from saponary.draw.pour.flow import Basin, Field, Threads, carry_plane, veil
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.skewer import skewer as lines
from saponary.draw.pour.smooth import Plane
from saponary.draw.pour.strokes import MOST_PASSES
from saponary.draw.pour.walls import Held, Walls
from saponary.schema.pour import Swirl


@dataclass(frozen=True)
class Stroke:
    """The paths of a tool's points, or of several tools at once: places in even steps, a column for each point."""

    paths: Plane
    radius: float
    drag: float
    ease: float = 0.05  # over what part of the path the tool goes in, and comes out


@dataclass(frozen=True)
class Reach:
    """Where the tool goes: the box it moves in, and whether the batter stands in columns."""

    left: float
    bottom: float
    right: float
    top: float
    upright: bool
    top_view: bool
    words: tuple[str, ...]

    def inset(self, part: float) -> Reach:
        """The room less a rim, where a round wall leaves the corners empty."""
        across, up = part * self.width, part * self.height
        return replace(
            self,
            left=self.left + across,
            right=self.right - across,
            bottom=self.bottom + up,
            top=self.top - up,
        )

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom


Tool = Callable[[Swirl, Reach], list[Stroke]]
MOST_POINTS = 12_000
BESIDE = 4
"""Tines of a row that reach one place, at most."""
PACE = 0.52
"""A step of the tool, in its radius."""


def hanger(swirl: Swirl, room: Reach) -> list[Stroke]:
    """Loops from one side to the other, each through the whole depth."""
    loops = min(swirl.passes, MOST_PASSES)
    turns = np.linspace(0.0, 1.0, 60 * loops + 1)
    angle = math.tau * loops * turns
    draws = numbers(2, "hanger", *room.words)
    sideways = min(0.16 * room.width, 0.62 * room.width / (loops + 0.6))
    x = room.left + sideways + (room.width - 2 * sideways) * turns - sideways * np.sin(angle)
    uneven = 1 + 0.08 * np.sin(angle / loops * 2 + math.tau * draws[0])
    y = (room.bottom + room.top) / 2 + 0.43 * room.height * np.cos(angle) * uneven
    radius = min(17.0, 0.36 * room.height, 1.3 * room.width / (loops + 1.5))
    return [Stroke(_paced(x + 1j * y, PACE * radius)[:, None], radius, 0.7)]


def comb(swirl: Swirl, room: Reach) -> list[Stroke]:
    """Tines side by side; each pass goes the other way and between the lines of the last."""
    strokes: list[Stroke] = []
    for turn in range(min(swirl.passes, MOST_PASSES)):
        across = room.upright if not room.top_view else (turn % 2 == 1) != room.upright
        length, span = (room.width, room.height) if across else (room.height, room.width)
        count = max(2, round(span / 15.0))
        gap = span / count
        shift = (0.5, 0.0, 0.25, 0.75)[(turn // 2 if room.top_view else turn) % 4]
        draws = np.array(numbers(count + 2, "comb", str(turn), *room.words))
        places = (np.arange(-1, count + 1) + 0.5 + shift + 0.16 * (draws - 0.5)) * gap
        ahead = 0.16 * gap * (draws[::-1] - 0.5)
        along = np.linspace(-0.02, 1.02, max(8, int(length / 1.2))) * length
        if turn % 2 == 0:
            along = along[::-1]
        sway = 0.1 * gap * np.sin(math.tau * (along / length * 0.8 + draws[0]))
        radius = min(1.05 * gap, 0.5 * length)
        # Along the stroke, and across it.
        path = _paced(along + 1j * sway, PACE * radius)[:, None] + ahead + 1j * places
        paths: Plane = path if across else path.imag + 1j * path.real
        strokes.append(Stroke(paths + room.left + 1j * room.bottom, radius, 0.56, ease=0.34))
    return strokes


def skewer(swirl: Swirl, room: Reach) -> list[Stroke]:
    """The lines of the closed-form skewer, all passes at once."""
    passes = lines(swirl, (room.width, room.height), room.upright, room.words)
    radius = 1.15 * max(one.radius for one in passes)
    steps = max(math.ceil(one.line.length / (PACE * radius)) for one in passes)
    paths: list[Plane] = []
    for one in passes:
        path = _paced(one.line.places[:: 1 if one.drag > 0 else -1], one.line.length / steps)
        paths.append(path.imag + 1j * path.real if one.upright else path)
    fewest = min(map(len, paths))
    together = np.column_stack([path[:fewest] for path in paths])
    return [Stroke(together + room.left + 1j * room.bottom, radius, 0.6)]


TOOLS: dict[str, Tool] = {"hanger": hanger, "comb": comb, "skewer": skewer}


def stir(
    swirl: Swirl,
    room: Reach,
    region: Basin,
    obstacle: BaseGeometry,
    lines: Sequence[Line],
) -> list[Line]:
    """The lines after the tool went through them.

    Batter in very many pieces is stirred more gently, to lines that can still be drawn.
    """
    fade = min(6.0, 0.2 * room.height)
    screen = Walls(region, fade) if obstacle.is_empty else veil(region, obstacle, fade)
    strokes = TOOLS[swirl.tool](swirl, room)
    for strength in (1.0, 0.7, 0.45, 0.25, 0.1):
        stirred = Threads(lines)
        if all(_drawn(stirred, screen, stroke, strength) for stroke in strokes):
            return stirred.lines()
    return list(lines)


def _drawn(threads: Threads, screen: Walls | Field, stroke: Stroke, strength: float) -> bool:
    """Draw one stroke; False if the lines have grown too long to go on."""
    steps = len(stroke.paths) - 1
    for i, (here, there) in enumerate(pairwise(stroke.paths)):
        done = (i + 0.5) / steps
        depth = min(1.0, done / stroke.ease, (1 - done) / stroke.ease)
        push = (there - here) * stroke.drag * strength * depth * (2 - depth)
        _push(threads, screen, (here + there) / 2, push, stroke.radius)
        if i % 2 == 1:
            threads.refine()
        if len(threads.points) > MOST_POINTS:
            return False
    threads.refine()
    return True


def _paced(path: Plane, pace: float) -> Plane:
    """The path in even steps."""
    run = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(path)))])
    steps = max(2, int(run[-1] / pace))
    at = np.linspace(0.0, float(run[-1]), steps + 1)
    paced: Plane = np.interp(at, run, path.real) + 1j * np.interp(at, run, path.imag)
    return paced


def _push(threads: Threads, screen: Walls | Field, tips: Plane, push: Plane, radius: float) -> None:
    """One short step of the tool: the stream function is about each tip the push's moment times (1 − d²/r²)³."""
    # Beyond its radius the tool moves nothing.
    left, right = float(tips.real.min()) - radius, float(tips.real.max()) + radius
    bottom, top = float(tips.imag.min()) - radius, float(tips.imag.max()) + radius
    plane, held = threads.plane, screen.within(left, bottom, right, top)
    x, y = plane.real, plane.imag
    near = np.flatnonzero((x > left) & (x < right) & (y > bottom) & (y < top))
    if 1 < len(tips) <= MOST_PASSES:
        # Tools led at once are apart.
        near = near[(np.abs(plane[near][:, None] - tips) < radius).any(axis=1)]
    if not len(near):
        return
    flow = _Push(tips, push, radius)
    if held is None:
        threads.move(near, carry_plane(plane[near], flow.velocity))
    else:
        threads.move(near, carry_plane(plane[near], lambda at: flow.veiled(at, held)))


@dataclass(frozen=True)
class _Push:
    """The flow about the tips of a tool while it takes one step."""

    tips: Plane
    push: Plane
    radius: float

    def _near(self, at: Plane) -> tuple[Plane, Plane]:
        """The tips that may reach each place, with their pushes; of a row of tines those beside it."""
        if len(self.tips) <= MOST_PASSES:
            return self.tips, self.push
        upright = np.ptp(self.tips.imag) > np.ptp(self.tips.real)
        row, place = (self.tips.imag, at.imag) if upright else (self.tips.real, at.real)
        first = np.minimum(np.maximum(np.searchsorted(row, place) - BESIDE // 2, 0), len(row) - BESIDE)
        beside = first[:, None] + np.arange(BESIDE)
        return self.tips[beside], self.push[beside]

    def velocity(self, at: Plane) -> Plane:
        return self._stream(at)[1]

    def veiled(self, at: Plane, let: Callable[[Array, Array], Held]) -> Plane:
        """The same, held back by walls."""
        stream, velocity = self._stream(at)
        held, held_x, held_y = let(at.real, at.imag)
        found: Plane = held * velocity + stream * (held_y - 1j * held_x)
        return found

    def _stream(self, at: Plane) -> tuple[Array, Plane]:
        """The stream function at each place, and the velocity, which is its slope turned by a quarter."""
        one = len(self.tips) == 1
        tips, push = self._near(at)
        away = at - tips if one else at[:, None] - tips
        across, up = away.real, away.imag
        fall = across * across
        fall += up * up
        fall *= -1 / self.radius**2
        fall += 1
        np.maximum(fall, 0, out=fall)
        squared = fall * fall
        fall *= squared
        side = up * push.real
        side -= across * push.imag
        stream = side * fall
        side *= squared
        turned = away * side
        turned *= 6j / self.radius**2
        turned += push * fall
        if one:
            return stream, turned
        return stream.sum(axis=1), turned.sum(axis=1)
