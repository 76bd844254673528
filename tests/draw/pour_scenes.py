"""Pours for the tests of the pour drawing, and a rasteriser of their own to measure them with."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour import DrawnExtra, DrawnPortion, Face, Scene, Shade, When
from saponary.draw.pour.drawing import draw_pair
from saponary.messages.speaker import speaker
from saponary.schema.pour import PourStep

Grid = NDArray[Any]
SVG = "{http://www.w3.org/2000/svg}"
FACES = {
    "loaf": Face("loaf", 90, 70),
    "slab": Face("slab", 80, 28),
    "slab-from-above": Face("slab", 240, 180, top_view=True),
    "round": Face("round", 62, 62),
}
PORTIONS = (
    DrawnPortion("chalk", 0.40, Shade("#efe6d2", "#f3ecdd")),
    DrawnPortion("madder", 0.27, Shade("#a4503c", "#b98f86")),
    DrawnPortion("woad", 0.21, Shade("#3d5a80", "#6d83a0")),
    DrawnPortion("slate", 0.12, Shade("#50585f", "#77818a")),
)
EXTRAS = (
    DrawnExtra("cocoa", "cocoa powder", Shade("#4a2c1a", "#5a3a28")),
    DrawnExtra("rose", "rose petals", Shade("#c2556b", "#a8707a")),
    DrawnExtra("clear", "clear soap", Shade("#7fb6a8", "#93bfb3")),
)
ALL = ["chalk", "madder", "woad", "slate"]
BEDS: list[dict[str, Any]] = [{"beds": [{"of": name} for name in ALL]}]
LAYINGS: dict[str, list[dict[str, Any]]] = {
    "unsaid": [],
    "flat beds": BEDS,
    "sloping beds": [
        {"beds": [{"of": "chalk", "slope": 12}, {"of": "madder", "slope": -9}, {"of": "woad", "slope": 20}]},
        {"beds": [{"of": "slate", "slope": -30}]},
    ],
    "a bed in two parts": [
        {"beds": [{"of": "chalk", "part": "25 %"}, {"of": "madder"}, {"of": "chalk"}, {"of": "woad"}]}
    ],
    "columns": [{"columns": {"of": ALL}}],
    "many leaning columns": [{"columns": {"of": ALL, "count": 11, "tilt": 25}}],
    "columns over a bed": [{"beds": [{"of": "woad"}]}, {"columns": {"of": ["chalk", "madder", "slate"]}}],
    "one drop": [{"drops": {"into": "chalk", "of": ["madder", "woad", "slate"]}}],
    "drops in seven places": [{"drops": {"into": "chalk", "of": ["madder", "woad", "slate"], "count": 7}}],
    "drops into the scarcest": [{"drops": {"into": "slate", "of": ["woad", "madder", "chalk"], "count": 2}}],
    "drops into a bed": [
        {"beds": [{"of": "chalk", "slope": 5}, {"of": "madder"}]},
        {"drops": {"into": "chalk", "of": ["woad"], "count": 3}},
        {"drops": {"into": "woad", "of": ["slate"], "count": 3}},
    ],
    "plops": [{"plops": {"of": ALL}}],
    "small plops": [{"plops": {"of": ALL, "across": "9 mm"}}],
    "embeds between beds": [
        {"beds": [{"of": "chalk"}]},
        {"embeds": {"of": "clear", "shape": "star", "across": "9 mm", "count": 4}},
        {"beds": [{"of": "madder", "slope": 4}, {"of": "woad"}, {"of": "slate"}]},
        {"top": {"shape": "peaks", "sprinkle": "rose"}},
    ],
    "a textured top": [*BEDS, {"line": {"of": "cocoa", "over": "madder"}}, {"top": {"shape": "mound"}}],
}
STIRRED = {
    f"{tool} through {name}": [*laid, {"swirl": {"tool": tool, "passes": passes}}]
    for tool, passes in (("hanger", 3), ("comb", 2), ("skewer", 3))
    for name, laid in (("beds", BEDS), ("columns", LAYINGS["columns"]))
}
STIRRED["hanger about embeds"] = [
    *BEDS,
    {"embeds": {"of": "clear", "shape": "round", "across": "12 mm", "count": 2}},
    {"swirl": {"tool": "hanger", "passes": 2, "depth": "70 %"}},
]


def as_text(value: object) -> object:
    if isinstance(value, dict):
        return {key: as_text(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_text(item) for item in value]
    return value if isinstance(value, str) else str(value)


def steps(written: list[dict[str, Any]]) -> tuple[PourStep, ...]:
    return tuple(PourStep.model_validate(as_text(step)) for step in written)


def scene(
    written: list[dict[str, Any]],
    face: Face = FACES["loaf"],
    portions: tuple[DrawnPortion, ...] = PORTIONS,
    title: str = "Quarry Strata",
) -> Scene:
    return Scene(title, portions, EXTRAS, face, steps(written))


def rings(data: str) -> list[list[tuple[float, float]]]:
    """The outlines of path data made of M, relative l, q and t, and z; curves in eight short lines each."""
    out: list[list[tuple[float, float]]] = []
    at = middle = 0j
    for command, written in re.findall(r"([MlqtzA-Za-z])([^A-Za-z]*)", data):
        numbers = [int(n) for n in re.findall(r"-?\d+", written)]
        points = [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        assert command in "Mlqtz"
        if command == "M":
            (at,) = points
            out.append([(at.real, at.imag)])
        pairs = zip(points[::2], points[1::2], strict=True) if command == "q" else ((None, p) for p in points)
        for control, end in pairs if command in "lqt" else ():
            there = at + end
            if command == "l":
                middle = (at + there) / 2
            else:
                middle = at + control if control is not None else 2 * at - middle
            for t in (np.arange(8) + 1) / 8:
                on = (1 - t) ** 2 * at + 2 * t * (1 - t) * middle + t * t * there
                out[-1].append((on.real, on.imag))
            at = there
    return out


def covered(data: str, width: int, height: int) -> Grid:
    """Which points of a grid (every unit across, every second one down) a path covers, even-odd."""
    toggles = np.zeros((height // 2, width + 1), dtype=np.int8)
    for ring in rings(data):
        here = np.array(ring, dtype=float)
        there = np.roll(here, -1, axis=0)
        ends = np.ceil((np.sort([here[:, 1], there[:, 1]], axis=0) - 0.5) / 2)
        first, last = np.clip(ends, 0, height // 2).astype(int)
        count = last - first
        edge = np.repeat(np.arange(len(here)), count)
        rows = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
        (x0, y0), (x1, y1) = here[edge].T, there[edge].T
        at = x0 + (2 * rows + 0.5 - y0) * (x1 - x0) / (y1 - y0)
        np.add.at(toggles, (rows, np.clip(np.ceil(at - 0.5), 0, width).astype(int)), 1)
    inside: Grid = np.cumsum(toggles, axis=1, dtype=np.int8)[:, :width] % 2 == 1
    return inside


def areas(svg: str) -> list[tuple[str, str]]:
    """The flat areas of batter and embeds in the order they are painted, as (colour, path data)."""
    root = ElementTree.fromstring(svg)
    outlines = {
        path.attrib["id"]: path.attrib["d"] for path in root.iter(f"{SVG}path") if "id" in path.attrib
    }
    (face,) = [group for group in root.iter(f"{SVG}g") if "clip-path" in group.attrib]
    found = []
    for item in face:
        if item.attrib.get("fill", "").startswith("#"):
            at = item.attrib.get("href", "#")[1:]
            found.append((item.attrib["fill"], outlines[at] if at else item.attrib["d"]))
    return found


def mould(svg: str) -> str:
    """The path that all batter is clipped to."""
    (clip,) = [
        c for c in ElementTree.fromstring(svg).iter(f"{SVG}clipPath") if c.attrib["id"].endswith("mould")
    ]
    return clip[0].attrib["d"]


def flat(pour: Scene, when: When = "fresh") -> str:
    """One face with nothing in it but its flat areas, as a drawing of its own."""
    pair = draw_pair(pour, "a", speaker())
    svg = pair.fresh_svg if when == "fresh" else pair.cured_svg
    head = svg[: svg.index(">") + 1]
    paths = (f'<path fill="{fill}" fill-rule="evenodd" d="{data}"/>' for fill, data in areas(svg))
    clip = f'<defs><clipPath id="mould"><path d="{mould(svg)}"/></clipPath></defs>'
    return f'{head}{clip}<g clip-path="url(#mould)">{"".join(paths)}</g></svg>'


def painted(pour: Scene, when: When = "fresh") -> Grid:
    """A drawing's flat areas as a grid of colour numbers (0xrrggbb), -1 where nothing is painted."""
    root = ElementTree.fromstring(flat(pour, when))
    _, _, width, height = (int(n) for n in root.attrib["viewBox"].split())
    grid = np.full((height // 2, width), -1)
    (clip, *paths) = root.iter(f"{SVG}path")
    for path in paths:
        grid[covered(path.attrib["d"], width, height)] = int(path.attrib["fill"][1:], 16)
    grid[~covered(clip.attrib["d"], width, height)] = -1
    return grid


def shares(grid: Grid, portions: tuple[DrawnPortion, ...]) -> dict[str, float]:
    """Each portion's share of all batter that shows."""
    counts = {item.name: int((grid == int(item.shade.fresh[1:], 16)).sum()) for item in portions}
    total = sum(counts.values())
    return {name: count / total for name, count in counts.items()}


EVERYTHING: list[dict[str, Any]] = [
    {"beds": [{"of": "chalk", "slope": 4}]},
    {"line": {"of": "cocoa", "over": "chalk"}},
    {"drops": {"into": "chalk", "of": ["slate"], "count": 2}},
    {"embeds": {"of": "clear", "shape": "star", "across": "11 mm", "count": 2}},
    {"plops": {"of": ["madder", "woad"]}},
    {"swirl": {"tool": "hanger", "passes": 2}},
    {"top": {"shape": "peaks", "sprinkle": "rose"}},
]
