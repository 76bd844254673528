"""The key to a drawing: a swatch for each portion and for all that dresses the pour."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from saponary.draw.pour.describe import percent
from saponary.draw.pour.dusting import specks
from saponary.draw.pour.embeds import shape
from saponary.draw.pour.ink import ink_on
from saponary.draw.pour.layout import Layout
from saponary.draw.pour.pair import LegendEntry, Role
from saponary.draw.pour.paths import Sheet
from saponary.draw.pour.plan import volumes
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.sprinkle import petal
from saponary.draw.pour.svg import safe_id
from saponary.draw.pour.tiles import pattern
from saponary.draw.pour.within import Within

FRAME = '<rect x="5" y="5" width="170" height="110" rx="14" {}/>'


def legend(
    scene: Scene, layout: Layout, within: Mapping[str, Within], id_prefix: str
) -> tuple[LegendEntry, ...]:
    """Portions in the order of the recipe, then lines, embeds and what is sprinkled."""
    entries: list[LegendEntry] = []
    seen: set[str] = set()
    shares = volumes(scene.portions)
    for number, portion in enumerate(scene.portions):
        if portion.name in seen:
            continue
        seen.add(portion.name)
        fresh, cured = (
            _portion(number, portion.shade.at(when), safe_id(f"{id_prefix}-key-{when}-{number}"))
            for when in _times()
        )
        entries.append(LegendEntry("portion", portion.name, percent(shares[portion.name]), fresh, cured))
    roles: list[tuple[Role, set[str]]] = [
        ("line", {dust.id for dust in layout.dust}),
        ("embed", {embed.id for embed in layout.embeds}),
        ("sprinkle", {sprinkled.id for sprinkled in layout.sprinkled}),
    ]
    for role, ids in roles:
        for extra in scene.extras:
            if extra.id in ids:
                small = within.get(extra.id) if role == "embed" else None
                fresh, cured = (
                    _piece(small, when) if small else _extra(scene, role, extra.id, extra.shade.at(when))
                    for when in _times()
                )
                entries.append(LegendEntry(role, extra.name, None, fresh, cured))
    return tuple(entries)


def _times() -> tuple[When, When]:
    return "fresh", "cured"


def _swatch(body: str) -> str:
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" class="pour-swatch" viewBox="0 0 180 120"'
        f' width="36" height="24" aria-hidden="true" focusable="false">{body}</svg>'
    )


def _portion(number: int, shade: str, key: str) -> str:
    outline = 'stroke="currentColor" stroke-opacity=".62" stroke-width="6"'
    return _swatch(
        f"<defs>{pattern(number, shade, key)}</defs>"
        + FRAME.format(f'fill="{shade}"')
        + FRAME.format(f'fill="url(#{key})" {outline}')
    )


def _piece(small: Within, when: When) -> str:
    """A piece of another soap, with its face."""
    outline = 'fill="none" stroke="currentColor" stroke-opacity=".62" stroke-width="6"'
    return _swatch(
        small.painted(when, (5, 5, 170, 110)) + f'<rect x="5" y="5" width="170" height="110" {outline}/>'
    )


def _extra(scene: Scene, role: Role, id: str, shade: str) -> str:
    if role == "line":
        line = np.column_stack([np.linspace(0.5, 8.5, 20), 3 + 0.35 * np.sin(np.linspace(0, 6, 20))])
        fine, coarse = specks(line, scene.title, id)
        sheet = Sheet(0, 6)
        return _swatch(
            f'<g fill="none" stroke="{shade}" stroke-linecap="round">'
            f'<path stroke-width="10" stroke-opacity=".85" d="{sheet.path([line], 0.01, closed=False)}"/>'
            f'<path stroke-width="8" d="{sheet.dots(fine)}"/>'
            f'<path stroke-width="13" d="{sheet.dots(coarse)}"/></g>'
        )
    if role == "embed":
        kind = next(
            s.embeds.shape for s in scene.steps if s.kind == "embeds" and s.embeds and s.embeds.of == id
        )
        outline = np.asarray(shape(kind, 5.0).exterior.coords)[:-1]
        path = Sheet(4.5, 3.0).path([outline], 0.01)
        return _swatch(f'<path fill="{shade}" stroke="{ink_on(shade, 1.9)}" stroke-width="6" d="{path}"/>')
    few = [
        petal(x, y, math.pi * turn, 2.6, 1.1)
        for x, y, turn in ((2.4, 3.6, 0.5), (4.6, 2.3, -0.6), (6.7, 3.7, 0.2))
    ]
    return _swatch(
        f'<path fill="{shade}" stroke="{ink_on(shade, 1.7)}" stroke-width="4"'
        f' d="{Sheet(0, 6).path(few, 0.01)}"/>'
    )
