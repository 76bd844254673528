"""Parts of a whole as one bar, each part in a pattern of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from saponary.draw.charts import svg
from saponary.messages.message import percent
from saponary.messages.speaker import Speaker

_HEIGHT = 34.0
_LEAST_LABELLED = 0.09


@dataclass(frozen=True)
class Share:
    """One part: what it is, how much of the whole, and one of `svg.PATTERNS`."""

    name: str
    fraction: float
    pattern: str


def shares(parts: Sequence[Share], what: str, say: Speaker, prefix: str = "shares") -> svg.Chart:
    """The bar, with the per cent written over the parts that have room for it."""
    drawn, left, width = [svg.patterns(prefix)], 1.0, svg.WIDTH - 2.0
    for part in parts:
        wide = width * max(part.fraction, 0.0)
        drawn.append(svg.block(left, 20, wide, _HEIGHT, svg.fill(prefix, part.pattern)))
        if part.fraction >= _LEAST_LABELLED:
            drawn.append(svg.label(left + wide / 2, 14, say(percent(part.fraction, 0)), anchor="middle"))
        left += wide
    told = ", ".join(say("chart.shares.part", part=p.name, share=percent(p.fraction)) for p in parts)
    return svg.drawing(20 + _HEIGHT + 2, say("chart.shares.described", what=what, parts=told), *drawn)


@cache
def key(pattern: str, prefix: str) -> str:
    """A small swatch of a pattern, to stand beside its name. It says nothing by itself."""
    return (
        f'<svg class="key" viewBox="0 0 18 18" width="18" height="18" aria-hidden="true">{svg.patterns(prefix)}'
        f"{svg.block(1, 1, 16, 16, svg.fill(prefix, pattern))}</svg>"
    )
