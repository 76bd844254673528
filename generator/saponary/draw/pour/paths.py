"""Outlines as SVG path data: whole twentieths, relative steps, no more points than the eye needs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from shapely.geometry import LineString

from saponary.draw.pour.carried import Line
from saponary.draw.pour.seed import Array
from saponary.draw.pour.splines import curves

FINE = 20
_STEADY = 6


@dataclass(frozen=True)
class Sheet:
    """The paper a drawing stands on: where the mould's lower left corner and the top edge lie."""

    left: float
    top: float

    def place(self, line: Array) -> list[tuple[int, int]]:
        """Points of the drawing, y upward, as whole twentieths with y downward."""
        placed = self._placed(line)
        return list(zip(_whole(placed[:, 0]), _whole(placed[:, 1]), strict=True))

    def curves(self, lines: Sequence[Line], most: int) -> list[str]:
        """Smooth closed lines, each as path data; all together have about `most` controls."""
        return curves([Line(self._placed(one.points), deep=one.deep) for one in lines], most)

    def path(self, lines: Iterable[Array], tolerance: float, closed: bool = True) -> str:
        return "".join(self._one(line, tolerance, closed) for line in lines)

    def _placed(self, line: Array) -> Array:
        return np.column_stack([(line[:, 0] + self.left) * FINE, (self.top - line[:, 1]) * FINE])

    def dots(self, places: Array) -> str:
        """Strokes of no length, which round caps turn into dots."""
        at = [(0, 0), *self.place(places)]
        steps = "".join(f"m{x - a}{_joined(y - b)}h0" for (a, b), (x, y) in pairwise(at))
        return steps.replace("m", "M", 1)

    def _one(self, line: Array, tolerance: float, closed: bool) -> str:
        # What is left out must not turn on last bits: two points of a circle may be as near to its chord.
        whole = np.round(np.concatenate([line, line[:1]]) if closed else line, _STEADY)
        kept = np.asarray(LineString(whole).simplify(tolerance, preserve_topology=False).coords)
        points = self.place(kept[:-1] if closed else kept)
        if len(points) < (3 if closed else 2):
            return ""
        (x, y) = points[0]
        steps: list[str] = []
        for next_x, next_y in points[1:]:
            if (next_x, next_y) != (x, y):
                steps.append(f"{next_x - x}{_joined(next_y - y)}")
                x, y = next_x, next_y
        text = steps[0] if steps else "0 0"
        for step in steps[1:]:
            text += step if step.startswith("-") else " " + step
        return f"M{points[0][0]}{_joined(points[0][1])}l{text}" + ("z" if closed else "")


def _whole(lengths: Array) -> list[int]:
    """To whole numbers, without the noise of the last bits, in which processors and libraries differ."""
    found: list[int] = np.rint(np.round(lengths, _STEADY)).astype(int).tolist()
    return found


def _joined(number: int) -> str:
    return f"{number}" if number < 0 else f" {number}"
