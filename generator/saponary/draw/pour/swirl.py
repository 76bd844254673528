"""The swirl: a tool drawn through the batter, which drags along what it passes.

A hanger is a wire that loops through the depth; a comb has tines side by side; a skewer is
one point led by hand. Around each point of the tool the batter is carried with it and flows
back at both sides, as about a rod in a thick fluid, so every portion keeps its area.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.flow import Basin, Field, Plane, Threads, carry_plane, veil
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.walls import Held, Walls
from saponary.quantity.dataclass import dataclass
from saponary.schema.pour import Swirl


@dataclass(frozen=True)
class Stroke:
    """A path for the tool's points, which keep their places `tines` relative to it."""

    path: Array
    tines: Array
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
ALONE = np.zeros((1, 2))
# Beyond this the eye sees no line of the tool any more, only batter mixed ever finer.
MOST_PASSES = 6
MOST_POINTS = 12_000
FINEST = 0.8
PACE = 0.4
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
    return [Stroke(np.column_stack([x, y]), ALONE, radius, 0.7)]


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
        if across:
            path = np.column_stack([along + room.left, sway])
            tines = np.column_stack([ahead, places + room.bottom])
        else:
            path = np.column_stack([sway, along + room.bottom])
            tines = np.column_stack([places + room.left, ahead])
        strokes.append(Stroke(path, tines, min(1.05 * gap, 0.5 * length), 0.56, ease=0.34))
    return strokes


def skewer(swirl: Swirl, room: Reach) -> list[Stroke]:
    """A wandering line, there and back, with small curls; it crosses the batter's beds or columns."""
    strokes: list[Stroke] = []
    length, span = (room.height, room.width) if room.upright else (room.width, room.height)
    for turn in range(min(swirl.passes, MOST_PASSES)):
        draws = numbers(4, "skewer", str(turn), *room.words)
        t = np.linspace(0.0, 1.0, 161)
        angle = math.tau * ((2.0 + draws[0]) * t + draws[1])
        along = length * (0.04 + 0.92 * t) - 0.07 * length * np.sin(2 * angle)
        aside = span * (0.5 + 0.42 * np.sin(angle) * (0.75 + 0.25 * draws[2]))
        x, y = (aside, along) if room.upright else (along, aside)
        path = np.column_stack([room.left + x, room.bottom + y])
        radius = min(9.5, 0.3 * room.height)
        strokes.append(Stroke(path if turn % 2 == 0 else path[::-1], ALONE, radius, 0.55))
    return strokes


TOOLS: dict[str, Tool] = {"hanger": hanger, "comb": comb, "skewer": skewer}


def stir(
    swirl: Swirl,
    room: Reach,
    region: Basin,
    obstacle: BaseGeometry,
    lines: Sequence[Array],
    closed: Sequence[bool],
) -> list[Array]:
    """The lines after the tool went through them.

    Batter in very many pieces is stirred more gently, to lines that can still be drawn.
    """
    fade = min(6.0, 0.2 * room.height)
    screen = Walls(region, fade) if obstacle.is_empty else veil(region, obstacle, fade)
    strokes = TOOLS[swirl.tool](swirl, room)
    for strength in (1.0, 0.7, 0.45, 0.25, 0.1):
        stirred = Threads(lines, closed, FINEST)
        if all(_drawn(stirred, screen, stroke, strength) for stroke in strokes):
            return stirred.lines()
    return list(lines)


def _drawn(threads: Threads, screen: Walls | Field, stroke: Stroke, strength: float) -> bool:
    """Draw one stroke; False if the lines have grown too long to go on."""
    path = _paced(stroke.path, PACE * stroke.radius)
    steps = len(path) - 1
    for i, (here, there) in enumerate(pairwise(path)):
        done = (i + 0.5) / steps
        depth = min(1.0, done / stroke.ease, (1 - done) / stroke.ease)
        push = (there - here) * stroke.drag * strength * depth * (2 - depth)
        _push(threads, screen, (here + there) / 2 + stroke.tines, push, stroke.radius)
        if i % 2 == 1:
            threads.refine()
        if len(threads.points) > MOST_POINTS:
            return False
    threads.refine()
    return True


def _paced(path: Array, pace: float) -> Array:
    """The path in even steps."""
    run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    steps = max(2, int(run[-1] / pace))
    at = np.linspace(0.0, float(run[-1]), steps + 1)
    return np.column_stack([np.interp(at, run, path[:, 0]), np.interp(at, run, path[:, 1])])


def _push(threads: Threads, screen: Walls | Field, tips: Array, push: Array, radius: float) -> None:
    """One short step of the tool: the stream function is about each tip the push's moment times (1 − d²/r²)³."""
    # Beyond its radius the tool moves nothing.
    (left, bottom), (right, top) = tips.min(axis=0) - radius, tips.max(axis=0) + radius
    plane, held = threads.plane, screen.within(left, bottom, right, top)
    x, y = plane.real, plane.imag
    near = np.flatnonzero((x > left) & (x < right) & (y > bottom) & (y < top))
    if not len(near):
        return
    flow = _Push(tips[:, 0] + 1j * tips[:, 1], complex(push[0], push[1]), radius)
    if held is None:
        plane[near] = carry_plane(plane[near], flow.velocity)
    else:
        plane[near] = carry_plane(plane[near], lambda at: flow.veiled(at, held))


@dataclass(frozen=True)
class _Push:
    """The flow about the tips of a tool while it takes one step."""

    tips: Plane
    push: complex
    radius: float

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
        away = at - self.tips[0] if one else at[:, None] - self.tips
        across, up = away.real, away.imag
        fall = across * across
        fall += up * up
        fall *= -1 / self.radius**2
        fall += 1
        np.maximum(fall, 0, out=fall)
        squared = fall * fall
        fall *= squared
        side = up * self.push.real
        side -= across * self.push.imag
        stream = side * fall
        side *= squared
        turned = away * side
        turned *= 6j / self.radius**2
        turned += self.push * fall
        if one:
            return stream, turned
        return stream.sum(axis=1), turned.sum(axis=1)
