"""The drawing as SVG: patches with their patterns, seams, pencil lines, embeds, petals, outline.

Nothing is loaded, scripted or filtered; the outline takes the colour of the text around it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape

import numpy as np

from saponary.draw.pour.dusting import specks
from saponary.draw.pour.ink import ink_on, luminance, mixed
from saponary.draw.pour.layout import Layout
from saponary.draw.pour.mould import Mould, parts
from saponary.draw.pour.paths import FINE, Sheet
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.seed import Array
from saponary.draw.pour.tiles import pattern

MARGIN = 1.0
SHOWN_WIDTH = 420
TOLERANCES = (0.012, 0.02, 0.03, 0.04, 0.06, 0.09, 0.13, 0.18, 0.25, 0.35, 0.5)
MOST_BYTES = 52_000


def safe_id(text: str) -> str:
    """Letters, digits and hyphens only, beginning with a letter."""
    tidy = re.sub(r"[^A-Za-z0-9-]+", "-", text)
    return tidy if tidy[:1].isalpha() else f"p-{tidy}"


def drawing(scene: Scene, layout: Layout, when: When, id_prefix: str, title: str, description: str) -> str:
    """One face of the pour, with its title and its description in words."""
    mould, key = layout.mould, safe_id(f"{id_prefix}-{when}")
    above = max(float(np.max(mould.top)) - mould.height, 0.0) + (2.5 if layout.strewn else 0.0)
    if not mould.face.top_view and mould.face.kind != "round":
        above = max(above, 0.13 * min(mould.height, 60.0) if above > 1.0 else 0.0)
    sheet = Sheet(MARGIN, mould.height + above + MARGIN)
    width = round((mould.width + 2 * MARGIN) * FINE)
    height = round((mould.height + above + 2 * MARGIN) * FINE)
    body = _dressed(scene, layout, when, sheet, key)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="pour-face" viewBox="0 0 {width} {height}"'
        f' width="{SHOWN_WIDTH}" height="{round(SHOWN_WIDTH * height / width)}" role="img"'
        f' aria-labelledby="{key}-title {key}-desc">'
        f'<title id="{key}-title">{escape(title)}</title><desc id="{key}-desc">{escape(description)}</desc>'
        f"{body}</svg>"
    )


def _patch_paths(layout: Layout, sheet: Sheet) -> list[str]:
    """Path data of all patches, with as many points as the size of the file allows."""
    paths: list[str] = []
    room = MOST_BYTES - 240 * len(layout.patches) - 4_500 * len(layout.dust) - 3_000 * len(layout.strewn)
    for tolerance in TOLERANCES:
        paths = [sheet.path(item.rings, tolerance) for item in layout.patches]
        if sum(map(len, paths)) <= max(room, 12_000):
            break
    return paths


def _shades(scene: Scene, when: When) -> tuple[dict[str, str], dict[str, str]]:
    return (
        {portion.name: portion.shade.at(when) for portion in scene.portions},
        {extra.id: extra.shade.at(when) for extra in scene.extras},
    )


def _dressed(scene: Scene, layout: Layout, when: When, sheet: Sheet, key: str) -> str:
    batter, extras = _shades(scene, when)
    numbers = {portion.name: i for i, portion in reversed(list(enumerate(scene.portions)))}
    outline = sheet.path(_outline(layout.mould), 0.02)
    used = sorted({item.name for item in layout.patches}, key=numbers.__getitem__)
    defs = [f'<clipPath id="{key}-mould"><path d="{outline}"/></clipPath>']
    defs += [pattern(numbers[name], batter[name], f"{key}-tile-{numbers[name]}") for name in used]
    painted: list[str] = []
    for i, (item, path) in enumerate(zip(layout.patches, _patch_paths(layout, sheet), strict=True)):
        if not path:
            continue
        defs.append(f'<path id="{key}-{i}" fill-rule="evenodd" d="{path}"/>')
        shade = batter[item.name]
        painted.append(f'<use href="#{key}-{i}" fill="{shade}"/>')
        painted.append(
            f'<use href="#{key}-{i}" fill="url(#{key}-tile-{numbers[item.name]})" stroke="{_seam(shade)}"'
            f' stroke-width="7" stroke-linejoin="round"/>'
        )
    painted += _dust(layout, extras, sheet, scene.title)
    return (
        f'<defs>{"".join(defs)}</defs><g clip-path="url(#{key}-mould)">{"".join(painted)}'
        f"{_embeds(layout, extras, sheet)}</g>"
        f'<path d="{outline}" fill="none" stroke="currentColor" stroke-opacity=".62" stroke-width="9"'
        f' stroke-linejoin="round"/>{_strewn(layout, extras, sheet)}'
    )


def _outline(mould: Mould) -> list[Array]:
    return [np.asarray(part.exterior.coords)[:-1] for part in parts(mould.outline)]


def _seam(shade: str) -> str:
    """The line along a patch: a highlight, or on pale batter a faint shadow."""
    return mixed(shade, "#ffffff", 0.5) if luminance(shade) < 0.5 else ink_on(shade, 1.4)


def _dust(layout: Layout, extras: Mapping[str, str], sheet: Sheet, title: str) -> list[str]:
    """A pencil line: a thin veil of powder with grains about it."""
    out: list[str] = []
    for i, dust in enumerate(layout.dust):
        path = sheet.path([dust.line], 0.04, closed=False)
        if path:
            fine, coarse = specks(dust.line, title, dust.id, str(i))
            out.append(
                f'<g fill="none" stroke="{extras[dust.id]}" stroke-linecap="round" stroke-linejoin="round">'
                f'<path stroke-width="9" stroke-opacity=".85" d="{path}"/>'
                f'<path stroke-width="6" d="{sheet.dots(fine)}"/>'
                f'<path stroke-width="9.5" d="{sheet.dots(coarse)}"/></g>'
            )
    return out


def _embeds(layout: Layout, extras: Mapping[str, str], sheet: Sheet) -> str:
    out: list[str] = []
    for embed in layout.embeds:
        shade = extras[embed.id]
        path = sheet.path([np.asarray(embed.shape.exterior.coords)[:-1]], 0.02)
        out.append(
            f'<path fill="{shade}" stroke="{ink_on(shade, 1.9)}" stroke-width="7"'
            f' stroke-linejoin="round" d="{path}"/>'
        )
    return "".join(out)


def _strewn(layout: Layout, extras: Mapping[str, str], sheet: Sheet) -> str:
    out: list[str] = []
    for strewn in layout.strewn:
        shade = extras[strewn.id]
        for pale in (False, True):
            chosen = [petal.outline for petal in strewn.petals if petal.pale == pale]
            tone = mixed(shade, "#ffffff", 0.3) if pale else shade
            out.append(
                f'<path fill="{tone}" stroke="{ink_on(tone, 1.7)}" stroke-width="3.5" stroke-linejoin="round"'
                f' d="{sheet.path(chosen, 0.01)}"/>'
            )
    return "".join(out)
