"""The comb as a closed-form map: one area-preserving stroke a pass, all its tines at once."""

from __future__ import annotations

import numpy as np

from saponary.draw.pour.chart import Chart
from saponary.draw.pour.seed import numbers
from saponary.draw.pour.strokes import MOST_PASSES, Ramp, Stroke, tines
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
