"""How lye and superfat went from version to version: two small rows of steps, one above the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from saponary.draw.charts import svg
from saponary.messages.message import Day, percent
from saponary.messages.speaker import Speaker

_RIGHT = 287.0
_HIGH = 40.0
"""From the lowest step of a row to its highest."""
_ROOM = 44.0
"""Between the middles of two figures that stand side by side."""
_ROW = 106.0
"""From the name of one row to that of the next."""


def course(versions: Sequence[tuple[date, float, float]], say: Speaker) -> svg.Chart:
    """Day, lye in grams for a kilogram of oils, and superfat as a share, of at least two versions from the earliest on."""
    lye = [found / 1000 for _, found, _ in versions]
    superfat = [found for _, _, found in versions]
    parts = [
        *_row(0, say("chart.course.lye"), lye, 2, say),
        *_row(_ROW, say("chart.course.superfat"), superfat, 1, say),
    ]
    days = [say(Day(on, "short")) for on in (versions[0][0], versions[-1][0])]
    below = 2 * _ROW
    parts += [svg.label(0, below, days[0]), svg.label(_RIGHT, below, days[1], anchor="end")]
    described = say(
        "chart.course.described",
        count=len(versions),
        lye=percent(lye[0], 2),
        lye_now=percent(lye[-1], 2),
        superfat=percent(superfat[0]),
        superfat_now=percent(superfat[-1]),
    )
    return svg.drawing(below + 6, described, *parts)


def _row(top: float, name: str, shares: Sequence[float], decimals: int, say: Speaker) -> Iterator[str]:
    """A level line for each version, joined by upright ones, its figure above it where there is room."""
    low, span = min(shares), (max(shares) - min(shares)) or 1.0
    width = _RIGHT / len(shares)
    floor = top + 40 + _HIGH

    def y(value: float) -> float:
        return floor - _HIGH * (value - low) / span

    yield svg.label(0, top + 14, name)
    yield svg.line(0, floor + 6, _RIGHT, floor + 6, faint=True)
    for index, value in enumerate(shares):
        x = index * width
        yield svg.line(x, y(value), x + width, y(value), width=2)
        if index:
            yield svg.line(x, y(shares[index - 1]), x, y(value), width=2)
    middles = [
        min(max((index + 0.5) * width, _ROOM / 2 - 2), _RIGHT - _ROOM / 2 + 2) for index in range(len(shares))
    ]
    for index in _told(shares, middles):
        number = say(percent(shares[index], decimals)).removesuffix("%").rstrip()
        last = index == len(shares) - 1
        yield svg.label(middles[index], y(shares[index]) - 5, number, anchor="middle", strong=last)


def _told(shares: Sequence[float], middles: Sequence[float]) -> list[int]:
    """The versions whose figures have room: the last and the first, the highest and the lowest, then the others."""
    every = range(len(shares))
    wanted = [every[-1], 0, max(every, key=lambda i: shares[i]), min(every, key=lambda i: shares[i]), *every]
    chosen: list[int] = []
    for index in wanted:
        if all(abs(middles[index] - middles[other]) >= _ROOM for other in chosen):
            chosen.append(index)
    return sorted(chosen)
