"""What is sprinkled on the top: small petals, along the top edge or over the top seen from above."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.mould import Mould
from saponary.draw.pour.seed import Array, numbers


@dataclass(frozen=True)
class Petal:
    """One petal: its outline, and whether it is one of the paler ones."""

    outline: Array
    pale: bool


def petals(mould: Mould, id: str, title: str) -> tuple[Petal, ...]:
    """Petals scattered by the words of the recipe; they lie on the batter and take no area from it."""
    spots = _from_above(mould, id, title) if mould.face.top_view else _along_the_top(mould, id, title)
    out: list[Petal] = []
    for i, (x, y, turn) in enumerate(spots):
        draws = numbers(3, "petal", id, title, str(i))
        out.append(Petal(petal(x, y, turn, 2.5 + 1.5 * draws[0], 1.1 + 0.5 * draws[1]), draws[2] > 0.6))
    return tuple(out)


def _along_the_top(mould: Mould, id: str, title: str) -> list[tuple[float, float, float]]:
    count = 22
    draws = numbers(3 * count, "sprinkle", id, title)
    spots: list[tuple[float, float, float]] = []
    for i in range(count):
        x = mould.width * (0.03 + 0.94 * (i + 0.5 + 0.9 * (draws[3 * i] - 0.5)) / count)
        y = float(np.interp(x, mould.xs, mould.top)) + 0.5 - 2.2 * draws[3 * i + 1] ** 2
        spots.append((x, y, math.pi * (0.9 * draws[3 * i + 2] - 0.45)))
    return spots


def _from_above(mould: Mould, id: str, title: str) -> list[tuple[float, float, float]]:
    pitch = 10.0
    columns, rows = max(2, round(mould.width / pitch)), max(2, round(mould.height / pitch))
    draws = numbers(3 * columns * rows, "sprinkle", id, title)
    spots: list[tuple[float, float, float]] = []
    for i in range(columns * rows):
        x = mould.width * (i % columns + 0.5 + 0.7 * (draws[3 * i] - 0.5)) / columns
        y = mould.height * (i // columns + 0.5 + 0.7 * (draws[3 * i + 1] - 0.5)) / rows
        floor, top = np.interp(x, mould.xs, mould.floor), np.interp(x, mould.xs, mould.top)
        if floor + 2 < y < top - 2:
            spots.append((x, y, math.tau * draws[3 * i + 2]))
    return spots


def petal(x: float, y: float, turn: float, length: float, width: float) -> Array:
    """A pointed oval, one side fuller than the other."""
    along = np.linspace(0, 1, 7)
    bulge = np.sin(math.pi * along) ** 0.8
    upper = np.column_stack([(along - 0.5) * length, 0.62 * width * bulge])
    lower = np.column_stack([(along - 0.5) * length, -0.38 * width * bulge])[::-1]
    leaf = np.concatenate([upper, lower[1:-1]])
    cos, sin = math.cos(turn), math.sin(turn)
    return np.column_stack([x + leaf[:, 0] * cos - leaf[:, 1] * sin, y + leaf[:, 0] * sin + leaf[:, 1] * cos])
