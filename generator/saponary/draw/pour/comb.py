"""The comb as a closed-form map: one area-preserving stroke a pass, all its tines at once."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.chart import Chart
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.strokes import Ramp, Stroke, tines
from saponary.draw.pour.swirl import MOST_PASSES
from saponary.schema.pour import Swirl

TINE = 15.0
SHIFTS = (0.5, 0.0, 0.25, 0.75)


def comb(swirl: Swirl, room: Chart, upright: bool, top_view: bool, words: tuple[str, ...]) -> list[Stroke]:
    """Tines side by side; each pass goes the other way and between the lines of the last.

    Through a cut face it is drawn up and down through beds, and across through columns.
    """
    strokes: list[Stroke] = []
    for turn in range(min(swirl.passes, MOST_PASSES)):
        along_y = not upright if not top_view else (turn % 2 == 0) != upright
        length, span = (room.height, room.width) if along_y else (room.width, room.height)
        count = max(2, round(span / TINE))
        gap = span / count
        shift = SHIFTS[(turn // 2 if top_view else turn) % 4]
        draws = np.array(numbers(count + 2, "comb", str(turn), *words))
        places = (np.arange(-1, count + 1) + 0.5 + shift + 0.16 * (draws - 0.5)) * gap
        if along_y:
            places = room.across_from_left(places)
        ease = min(0.42 * length, 1.5 * gap)
        drag = 0.85 * gap * (-1.0 if turn % 2 == 0 else 1.0)
        strokes.append(Stroke(Ramp(0.0, length, ease), tines(places, span, 0.3 * gap), drag, along_y))
    return strokes


PACE = 1.6
"""An outline is first sampled this far apart, then split where it bends or is drawn out."""
SHORTEST = 0.35
BEND = 0.2
"""Length times turn of one stretch, before it is split."""
ROUNDS = 3


def drawn(line: Array, closed: bool, room: Chart, strokes: Sequence[Stroke]) -> Array:
    """An outline after the strokes: sampled along its own length, more closely where it is drawn out."""
    whole = np.concatenate([line, line[:1]]) if closed else line
    steps = np.hypot(*np.diff(whole, axis=0).T)
    run = np.concatenate([[0.0], np.cumsum(steps)])
    total = float(run[-1])
    if total < 1e-6:
        return line
    keep = np.concatenate([[True], steps > 1e-9])
    whole, run = whole[keep], run[keep]

    def carried(at: Array) -> Array:
        points = np.column_stack([np.interp(at, run, whole[:, 0]), np.interp(at, run, whole[:, 1])])
        place, moves = _within(room, points)
        there = place[moves]
        for stroke in strokes:
            there = stroke.carry(there)
        points[moves] = room.out(there)
        return points

    # What stays where it is keeps its own points.
    still = run[~_within(room, whole)[1]]
    at = np.union1d(np.linspace(0.0, total, max(4, math.ceil(total / PACE) + 1)), still)
    points = carried(at)
    for _ in range(ROUNDS):
        parts = _parts(points)
        if not np.any(parts > 1):
            break
        edge = np.repeat(np.arange(len(parts)), parts - 1)
        first = np.cumsum(parts - 1) - (parts - 1)
        number = np.arange(len(edge)) - first[edge] + 1
        new = at[edge] + (at[edge + 1] - at[edge]) * number / parts[edge]
        at = np.insert(at, edge + 1, new)
        points = np.insert(points, edge + 1, carried(new), axis=0)
    return points[:-1] if closed else points


def _within(room: Chart, points: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Points in the chart, and which of them lie in the region."""
    place, x = room.into(points), points[:, 0]
    inside = (place[:, 1] > 0) & (place[:, 1] < room.height) & (x > room.xs[0]) & (x < room.xs[-1])
    return place, inside


def _parts(points: Array) -> NDArray[np.int64]:
    """Into how many each stretch is split, by its length and by how the line turns at its ends."""
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    heading = np.arctan2(step[:, 1], step[:, 0])
    turn = np.abs((np.diff(heading) + math.pi) % math.tau - math.pi)
    bend = np.maximum(np.concatenate([[0.0], turn]), np.concatenate([turn, [0.0]]))
    wanted = np.sqrt(length * np.minimum(bend, 1.5) / BEND)
    parts: NDArray[np.int64] = np.clip(np.ceil(np.minimum(wanted, length / SHORTEST)), 1, 12).astype(np.int64)
    return parts
