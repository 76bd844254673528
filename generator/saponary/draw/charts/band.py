"""The superfat band: nominal, as weighed, and how far the spread of natural oils may carry it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from saponary.draw.charts import svg
from saponary.lye.band import Band
from saponary.messages.message import Number, percent
from saponary.messages.speaker import Speaker

_LEFT, _RIGHT = 86.0, 280.0
_ROWS = {"worst": 34.0, "likely": 62.0, "weighed": 90.0}
_AXIS = 112.0

KEYS_BY_ID = {"chart.band.": tuple(_ROWS)}


@dataclass(frozen=True)
class Superfat:
    """Superfat as fractions."""

    nominal: float
    as_weighed: float
    likely: Band
    worst: Band


@dataclass(frozen=True)
class _Axis:
    """Ends of the axis in whole per cent, zero always on it, and the distance of its ticks."""

    low: int
    high: int
    step: int

    def x(self, fraction: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * (100 * fraction - self.low) / (self.high - self.low)


def superfat_band(superfat: Superfat, say: Speaker, prefix: str = "band") -> svg.Chart:
    """Ranges as bars over one scale in per cent; below zero there is alkali to spare."""
    axis = _axis(superfat)
    parts = [svg.patterns(prefix), *_ticks(axis, say)]
    parts += [svg.label(0, y + 5, say(f"chart.band.{row}")) for row, y in _ROWS.items()]
    for row, band, pattern in (("worst", superfat.worst, "hatch"), ("likely", superfat.likely, "solid")):
        left, right = axis.x(band.low), axis.x(band.high)
        parts.append(svg.block(left, _ROWS[row] - 7, right - left, 14, svg.fill(prefix, pattern)))
    middle = axis.x(superfat.nominal)
    nominal = say("chart.band.nominal", superfat=percent(superfat.nominal))
    parts.append(svg.line(middle, 20, middle, _AXIS, width=2, dashes="4 3"))
    parts.append(svg.label(min(max(middle, 120.0), 242.0), 13, nominal, anchor="middle", strong=True))
    parts.append(_diamond(axis.x(superfat.as_weighed), _ROWS["weighed"]))
    parts.append(svg.label(_RIGHT, _AXIS + 36, say("chart.band.axis"), anchor="end"))
    if axis.low < 0:
        parts.append(svg.label(0, _AXIS + 17, say("chart.band.alkali")))
    return svg.drawing(_AXIS + 42, _described(superfat, say), *parts)


def _ticks(axis: _Axis, say: Speaker) -> list[str]:
    parts: list[str] = []
    for tick in range(axis.low, axis.high + 1, axis.step):
        x, zero = axis.x(tick / 100), tick == 0
        parts.append(svg.line(x, 24, x, _AXIS, faint=not zero, width=1.5 if zero else 1))
        parts.append(svg.label(x, _AXIS + 17, say(Number(tick)), anchor="middle"))
    return parts


def _described(superfat: Superfat, say: Speaker) -> str:
    worst, likely = superfat.worst, superfat.likely
    return say(
        "chart.band.described",
        nominal=percent(superfat.nominal),
        weighed=percent(superfat.as_weighed),
        likely_low=percent(likely.low),
        likely_high=percent(likely.high),
        worst_low=percent(worst.low),
        worst_high=percent(worst.high),
    )


def _axis(superfat: Superfat) -> _Axis:
    values = (superfat.nominal, superfat.as_weighed, superfat.worst.low, superfat.worst.high)
    low, high = min(0, floor(100 * min(values))), max(1, ceil(100 * max(values)))
    step = next(s for s in (1, 2, 5, 10, 20, 50, 100) if (high - low) / s <= 8 or s == 100)
    return _Axis(floor(low / step) * step, ceil(high / step) * step, step)


def _diamond(x: float, y: float) -> str:
    return f'<path d="M{svg.at(x)} {svg.at(y - 8)}l6.5 8l-6.5 8l-6.5-8z"/>'
