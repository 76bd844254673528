"""The drawing as SVG: patches with their patterns, seams, pencil lines, embeds, petals, outline.

Nothing is loaded, scripted or filtered; the outline takes the colour of the text around it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape

from saponary.draw.pour.ink import ink_on, mixed
from saponary.draw.pour.outlines import Outlines
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.tiles import pattern
from saponary.draw.pour.within import Within
from saponary.quantity.contrast import luminance

SHOWN_WIDTH = 420


def safe_id(text: str) -> str:
    """Letters, digits and hyphens only, beginning with a letter."""
    tidy = re.sub(r"[^A-Za-z0-9-]+", "-", text)
    return tidy if tidy[:1].isalpha() else f"p-{tidy}"


def drawing(
    scene: Scene,
    lines: Outlines,
    within: Mapping[str, Within],
    when: When,
    id_prefix: str,
    words: tuple[str, str],
) -> str:
    """One face of the pour, with its title and its description in words; `within` are faces that embeds show."""
    title, description = words
    key = safe_id(f"{id_prefix}-{when}")
    shown_height = round(SHOWN_WIDTH * lines.height / lines.width)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="pour-face" viewBox="0 0 {lines.width} {lines.height}"'
        f' width="{SHOWN_WIDTH}" height="{shown_height}" role="img"'
        f' aria-labelledby="{key}-title {key}-desc">'
        f'<title id="{key}-title">{escape(title)}</title><desc id="{key}-desc">{escape(description)}</desc>'
        f"{_dressed(scene, lines, within, when, key)}</svg>"
    )


def _dressed(scene: Scene, lines: Outlines, within: Mapping[str, Within], when: When, key: str) -> str:
    batter = {portion.name: portion.shade.at(when) for portion in scene.portions}
    extras = {extra.id: extra.shade.at(when) for extra in scene.extras}
    numbers = {portion.name: i for i, portion in reversed(list(enumerate(scene.portions)))}
    used = sorted({name for name, _ in lines.patches}, key=numbers.__getitem__)
    defs = [f'<clipPath id="{key}-mould"><path d="{lines.mould}"/></clipPath>']
    defs += [pattern(numbers[name], batter[name], f"{key}-tile-{numbers[name]}") for name in used]
    defs += [
        f'<clipPath id="{key}-embed-{i}"><path d="{one.path}"/></clipPath>'
        for i, one in enumerate(lines.embeds)
        if one.id in within
    ]
    painted: list[str] = []
    for i, (name, path) in enumerate(lines.patches):
        if not path:
            continue
        defs.append(f'<path id="{key}-{i}" d="{path}"/>')
        shade = batter[name]
        painted.append(f'<use href="#{key}-{i}" fill="{shade}"/>')
        painted.append(
            f'<use href="#{key}-{i}" fill="url(#{key}-tile-{numbers[name]})" stroke="{_seam(shade)}"/>'
        )
    painted += _dust(lines, extras)
    return (
        f'<defs>{"".join(defs)}</defs><g clip-path="url(#{key}-mould)" fill-rule="evenodd" stroke-width="7"'
        f' stroke-linejoin="round">{"".join(painted)}'
        f"{_embeds(lines, extras, within, when, key)}</g>"
        f'<path d="{lines.mould}" fill="none" stroke="currentColor" stroke-opacity=".62" stroke-width="9"'
        f' stroke-linejoin="round"/>{_sprinkled(lines, extras)}'
    )


def _seam(shade: str) -> str:
    """The line along a patch: a highlight, or on pale batter a faint shadow."""
    return mixed(shade, "#ffffff", 0.5) if luminance(shade) < 0.5 else ink_on(shade, 1.4)


def _dust(lines: Outlines, extras: Mapping[str, str]) -> list[str]:
    """A pencil line: a thin veil of powder with grains about it."""
    return [
        f'<g fill="none" stroke="{extras[powder]}" stroke-linecap="round" stroke-linejoin="round">'
        f'<path stroke-width="9" stroke-opacity=".85" d="{path}"/>'
        f'<path stroke-width="6" d="{fine}"/>'
        f'<path stroke-width="9.5" d="{coarse}"/></g>'
        for powder, path, fine, coarse in lines.dust
    ]


def _embeds(
    lines: Outlines, extras: Mapping[str, str], within: Mapping[str, Within], when: When, key: str
) -> str:
    """Each in one colour, or with the face of the soap that it was cut from."""
    out: list[str] = []
    for i, one in enumerate(lines.embeds):
        shade, fill = extras[one.id], extras[one.id]
        if one.id in within:
            out.append(f'<g clip-path="url(#{key}-embed-{i})">{within[one.id].painted(when, one.box)}</g>')
            fill = "none"
        out.append(f'<path fill="{fill}" stroke="{ink_on(shade, 1.9)}" d="{one.path}"/>')
    return "".join(out)


def _sprinkled(lines: Outlines, extras: Mapping[str, str]) -> str:
    out: list[str] = []
    for id, darker, paler in lines.sprinkled:
        for tone, path in ((extras[id], darker), (mixed(extras[id], "#ffffff", 0.3), paler)):
            out.append(
                f'<path fill="{tone}" stroke="{ink_on(tone, 1.7)}" stroke-width="3.5" stroke-linejoin="round"'
                f' d="{path}"/>'
            )
    return "".join(out)
