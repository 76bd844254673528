"""How lye and superfat went from version to version: two small rows of steps, one above the other."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from saponary.draw.charts import svg
from saponary.messages.message import percent
from saponary.messages.speaker import Speaker

_LEFT, _RIGHT, _HIGH = 0.0, 287.0, 46.0
_TOPS = (22.0, 112.0)


def course(versions: Sequence[tuple[date, float, float]], say: Speaker) -> svg.Chart:
    """Day, lye in grams for a kilogram of oils, and superfat as a share, of at least two versions from the earliest on."""
    lye = [found for _, found, _ in versions]
    superfat = [100.0 * found for _, _, found in versions]
    parts = [
        *_steps(
            _TOPS[0], say("chart.course.lye"), lye, [say(percent(one / 1000, 2)) for one in (lye[0], lye[-1])]
        ),
        *_steps(
            _TOPS[1],
            say("chart.course.superfat"),
            superfat,
            [say(percent(one / 100)) for one in (superfat[0], superfat[-1])],
        ),
    ]
    described = say(
        "chart.course.described",
        count=len(versions),
        lye=percent(lye[0] / 1000, 2),
        lye_now=percent(lye[-1] / 1000, 2),
        superfat=percent(superfat[0] / 100),
        superfat_now=percent(superfat[-1] / 100),
    )
    return svg.drawing(_TOPS[1] + _HIGH + 24, described, *parts)


def _steps(top: float, name: str, values: Sequence[float], ends: Sequence[str]) -> list[str]:
    """A level line for each version, joined by upright ones; the first and the last value in figures."""
    low, high = min(values), max(values)
    span = (high - low) or 1.0

    def y(value: float) -> float:
        return top + _HIGH - (_HIGH - 6) * (value - low) / span

    width = (_RIGHT - _LEFT) / len(values)
    parts = [
        svg.label(_LEFT, top - 8, name),
        svg.line(_LEFT, top + _HIGH + 3, _RIGHT, top + _HIGH + 3, faint=True),
    ]
    for index, value in enumerate(values):
        x = _LEFT + index * width
        parts.append(svg.line(x, y(value), x + width, y(value), width=2))
        if index:
            parts.append(svg.line(x, y(values[index - 1]), x, y(value), width=2))
    parts.append(svg.label(_LEFT, top + _HIGH + 19, ends[0]))
    parts.append(svg.label(_RIGHT, top + _HIGH + 19, ends[1], anchor="end", strong=True))
    return parts
