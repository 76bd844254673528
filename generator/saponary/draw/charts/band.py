"""The superfat band: nominal, as weighed, and how far nature's spread may carry it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from saponary.draw.charts import svg
from saponary.lye.band import Band
from saponary.quantity.rounding import show

_LEFT, _RIGHT = 86.0, 280.0
_ROWS = {"worst case": 34.0, "likely": 62.0, "as weighed": 90.0}
_AXIS = 112.0


@dataclass(frozen=True)
class Superfat:
    """Superfat as fractions."""

    nominal: float
    as_weighed: float
    likely: Band
    worst: Band


def superfat_band(superfat: Superfat, prefix: str = "band") -> svg.Chart:
    """Ranges as bars over one scale in per cent; below zero there is alkali to spare."""
    low, high, step = _scale(superfat)

    def x(fraction: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * (100 * fraction - low) / (high - low)

    parts = [svg.patterns(prefix)]
    for tick in range(low, high + 1, step):
        parts.append(
            svg.line(x(tick / 100), 24, x(tick / 100), _AXIS, faint=tick != 0, width=1.5 if tick == 0 else 1)
        )
        parts.append(
            svg.label(x(tick / 100), _AXIS + 17, f"{tick}" if tick >= 0 else f"−{-tick}", anchor="middle")
        )
    parts += [svg.label(0, y + 5, name) for name, y in _ROWS.items()]
    for name, band, pattern in (
        ("worst case", superfat.worst, "hatch"),
        ("likely", superfat.likely, "solid"),
    ):
        parts.append(
            svg.block(x(band.low), _ROWS[name] - 7, x(band.high) - x(band.low), 14, svg.fill(prefix, pattern))
        )
    middle = x(superfat.nominal)
    parts.append(svg.line(middle, 20, middle, _AXIS, width=2, dashes="4 3"))
    parts.append(
        svg.label(
            min(max(middle, 120.0), 242.0),
            13,
            f"nominal {_percent(superfat.nominal)} %",
            anchor="middle",
            strong=True,
        )
    )
    parts.append(_diamond(x(superfat.as_weighed), _ROWS["as weighed"]))
    parts.append(svg.label(_RIGHT, _AXIS + 36, "superfat, % of the oils", anchor="end"))
    if low < 0:
        parts.append(svg.label(0, _AXIS + 17, "alkali over"))
    return svg.drawing(_AXIS + 42, describe(superfat), *parts)


def describe(superfat: Superfat) -> str:
    worst, likely = superfat.worst, superfat.likely
    return (
        f"Superfat: nominal {_percent(superfat.nominal)} %, as weighed {_percent(superfat.as_weighed)} %, "
        f"likely {_percent(likely.low)} to {_percent(likely.high)} %, "
        f"worst case {_percent(worst.low)} to {_percent(worst.high)} %."
    )


def _percent(fraction: float) -> str:
    return show(100 * fraction, 1).replace("-", "−")


def _scale(superfat: Superfat) -> tuple[int, int, int]:
    """Ends of the axis in whole per cent, zero always on it, and the distance of its ticks."""
    values = (superfat.nominal, superfat.as_weighed, superfat.worst.low, superfat.worst.high)
    low, high = min(0, floor(100 * min(values))), max(1, ceil(100 * max(values)))
    step = next(s for s in (1, 2, 5, 10, 20, 50, 100) if (high - low) / s <= 8 or s == 100)
    return floor(low / step) * step, ceil(high / step) * step, step


def _diamond(x: float, y: float) -> str:
    return f'<path d="M{svg.at(x)} {svg.at(y - 8)}l6.5 8l-6.5 8l-6.5-8z"/>'
