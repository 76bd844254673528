"""The lines of a drawing as path data, which both of its faces share: only their colours differ."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon

from saponary.draw.pour.dusting import specks
from saponary.draw.pour.embeds import Embed
from saponary.draw.pour.layout import Layout, Sprinkled
from saponary.draw.pour.mould import parts
from saponary.draw.pour.paths import FINE, Sheet
from saponary.draw.pour.scene import Scene
from saponary.draw.pour.seed import Array

MARGIN = 1.0
MOST = 1_800
"""Controls of all patches together, where each is about six bytes."""
MOST_WITHIN = 450
"""Of a face that is seen within another."""


@dataclass(frozen=True)
class InPlace:
    """An embed: what it is, its path, and the box that it fills, from its upper left corner."""

    id: str
    path: str
    box: tuple[int, int, int, int]


@dataclass(frozen=True)
class Outlines:
    """Path data in the order it is painted; `width` and `height` are the drawing's, in its own units."""

    width: int
    height: int
    mould: str
    patches: tuple[tuple[str, str], ...]  # portion, path
    dust: tuple[tuple[str, str, str, str], ...]  # powder, line, finer and coarser specks
    embeds: tuple[InPlace, ...]
    sprinkled: tuple[tuple[str, str, str], ...]  # thing, path of the darker and of the paler petals


def outlines(scene: Scene, layout: Layout, most: int = MOST) -> Outlines:
    """`most` is how many controls the patches may take."""
    mould = layout.mould
    above = max(float(np.max(mould.top)) - mould.height, 0.0) + (2.5 if layout.sprinkled else 0.0)
    if not mould.face.top_view and mould.face.kind != "round":
        above = max(above, 0.13 * min(mould.height, 60.0) if above > 1.0 else 0.0)
    sheet = Sheet(MARGIN, mould.height + above + MARGIN)
    names = [item.name for item in layout.patches]
    return Outlines(
        width=round((mould.width + 2 * MARGIN) * FINE),
        height=round((mould.height + above + 2 * MARGIN) * FINE),
        mould=sheet.path([_edge(part) for part in parts(mould.outline)], 0.02),
        patches=tuple(zip(names, _patches(layout, sheet, most), strict=True)),
        dust=tuple(_dust(layout, sheet, scene.title)),
        embeds=tuple(_in_place(embed, sheet) for embed in layout.embeds),
        sprinkled=tuple(
            (item.id, _petals(item, sheet, pale=False), _petals(item, sheet, pale=True))
            for item in layout.sprinkled
        ),
    )


def _petals(sprinkled: Sprinkled, sheet: Sheet, *, pale: bool) -> str:
    return sheet.path([petal.outline for petal in sprinkled.petals if petal.pale == pale], 0.01)


def _edge(shape: Polygon) -> Array:
    return np.asarray(shape.exterior.coords)[:-1]


def _in_place(embed: Embed, sheet: Sheet) -> InPlace:
    edge = _edge(embed.shape)
    points = sheet.place(edge)
    left, top = (min(point[i] for point in points) for i in (0, 1))
    right, low = (max(point[i] for point in points) for i in (0, 1))
    return InPlace(embed.id, sheet.path([edge], 0.02), (left, top, right - left, low - top))


def _patches(layout: Layout, sheet: Sheet, most: int) -> list[str]:
    """Path data of all patches, with as many controls as the size of the file allows."""
    texts = iter(sheet.curves([line for item in layout.patches for line in item.lines], most))
    return ["".join(next(texts) for _ in item.lines) for item in layout.patches]


def _dust(layout: Layout, sheet: Sheet, title: str) -> Iterable[tuple[str, str, str, str]]:
    for i, dust in enumerate(layout.dust):
        path = sheet.path([dust.line.points], 0.04, closed=False)
        if path:
            fine, coarse = specks(dust.line.points, title, dust.id, str(i))
            yield dust.id, path, sheet.dots(fine), sheet.dots(coarse)
