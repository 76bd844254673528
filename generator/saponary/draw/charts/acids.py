"""The fatty acids of the blend as a spectrum: chain length along, share upwards.

Acids of one chain length stand on each other: saturated below, then those with one double
bond, then those with more.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saponary.draw.charts import svg
from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.messages.message import message, percent
from saponary.messages.speaker import Speaker
from saponary.quantity.rounding import show

KINDS = (("saturated", "solid"), ("monounsaturated", "hatch"), ("polyunsaturated", "dots"))
"""Groups of acids with the pattern each is drawn in."""

_LEFT, _RIGHT, _TOP, _FLOOR = 0.0, 287.0, 44.0, 190.0
_COLUMN = 15.0
_LEAST_LABELLED = 0.015


def kind(key: str) -> str:
    """Which of `KINDS` an acid belongs to."""
    return KINDS[min(FATTY_ACIDS[key].double_bonds, 2)][0]


def spectrum(acids: Mapping[str, float], say: Speaker, prefix: str = "acids") -> svg.Chart:
    """Columns by the number of carbons, for mass fractions by shorthand."""
    columns: dict[int, dict[str, float]] = {}
    for key, part in acids.items():
        if part > 0:
            of_kind = columns.setdefault(FATTY_ACIDS[key].carbons, {})
            of_kind[kind(key)] = of_kind.get(kind(key), 0.0) + part
    shortest, longest = min([8, *columns]), max([20, *columns])
    highest = max([sum(c.values()) for c in columns.values()], default=0.1)

    def x(carbons: int) -> float:
        return _LEFT + _COLUMN + (_RIGHT - _LEFT - 2 * _COLUMN) * (carbons - shortest) / (longest - shortest)

    def y(height: float) -> float:
        return _FLOOR - (_FLOOR - _TOP) * height / (100 * highest)

    parts = [svg.patterns(prefix), svg.label(0, 13, say("chart.acids.axis"))]
    for carbons, of_kind in sorted(columns.items()):
        parts += _column(x(carbons), of_kind, y, prefix)
    for carbons in range(shortest + shortest % 2, longest + 1, 2):
        parts.append(svg.label(x(carbons), _FLOOR + 18, str(carbons), anchor="middle"))
    parts.append(svg.line(_LEFT, _FLOOR, _RIGHT, _FLOOR))
    parts.append(svg.label(_RIGHT, _FLOOR + 37, say("chart.acids.chain"), anchor="end"))
    return svg.drawing(_FLOOR + 43, describe(acids, say), *parts)


def _column(x: float, of_kind: Mapping[str, float], y: Callable[[float], float], prefix: str) -> list[str]:
    parts: list[str] = []
    below = 0.0
    for name, pattern in KINDS:
        part = 100 * of_kind.get(name, 0.0)
        if part > 0:
            top = y(below + part)
            parts.append(svg.block(x - _COLUMN / 2, top, _COLUMN, y(below) - top, svg.fill(prefix, pattern)))
            below += part
    if below >= 100 * _LEAST_LABELLED:
        parts.append(svg.label(x, y(below) - 5, show(below, 0), anchor="middle", strong=True))
    return parts


def describe(acids: Mapping[str, float], say: Speaker) -> str:
    """The larger acids in words, largest first."""
    largest = sorted(acids.items(), key=lambda item: (-item[1], item[0]))[:5]
    if not largest:
        return say("chart.acids.unknown")
    named = (
        say("chart.acids.share", acid=message(f"acid.{key}"), share=percent(part, 0)) for key, part in largest
    )
    return say("chart.acids.described", largest=", ".join(named))
