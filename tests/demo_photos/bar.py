"""The cut face of a soap bar as it looks on a day of its cure, painted from its recipe.

The pour is laid out by the same code as the drawings, with another hand for each lot; the colours come from
the standard tables and the book's pantry, and move from fresh to cured day by day.
"""

from __future__ import annotations

import hashlib
import math
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import yaml
from numpy.typing import NDArray
from PIL import Image, ImageChops, ImageDraw, ImageFilter

from saponary.draw.pour.layout import Layout, lay_out
from saponary.draw.pour.scene import DrawnExtra, DrawnPortion, Face, Scene, Shade
from saponary.schema.pour import PourStep

BOOK = Path(__file__).parents[2] / "demo_book"
TABLES = BOOK.parent / "generator/saponary/tables"
FINE = 2  # the face is painted at twice its size, then shrunk
FAULTS = ("ash", "ricing", "faded", "spot")
FADING_DAYS = {"poor": 15.0, "fair": 11.0}
SPECKLED = {
    "spirulina",
    "kelp",
    "paprika",
    "turmeric",
    "garden-madder",
    "madder",
    "cocoa",
    "annatto",
    "slate-dust",
}
SPOON_ML = {"tsp": 5.0, "tbsp": 15.0}
BATTER = ("#efe5cb", "#f3ebda")
LIQUID_TINTS = {"carrot-puree": ("#dd9448", "#e6bd86")}

Grid = NDArray[np.floating[Any]]


@dataclass(frozen=True)
class Shot:
    """One photograph to draw."""

    file: str
    recipe: str
    lot: str
    poured: str
    day: int

    @property
    def fault(self) -> str:
        return next((name for name in FAULTS if re.search(rf"(^|[-_ ]){name}", Path(self.file).stem)), "")


def read_yaml(path: Path) -> Any:
    """Every scalar as text."""
    return yaml.load(path.read_text("utf-8"), yaml.BaseLoader)


def read_recipe(slug: str) -> Any:
    text = (BOOK / "recipes" / f"{slug}.md").read_text("utf-8")
    return yaml.load(text.split("---\n", 2)[1], yaml.BaseLoader)


def number(text: str) -> float:
    return float(text.split()[0])


def colour_table() -> dict[str, dict[str, Any]]:
    table: dict[str, dict[str, Any]] = {}
    for kind in ("colourants", "additions"):
        for name, entry in read_yaml(TABLES / f"{kind}.yaml")[kind].items():
            if "fresh" in entry and "full-depth" in entry:
                density = entry.get("density", "0.6 g/ml")
                table[name] = {
                    **entry,
                    "full": number(entry["full-depth"]),
                    "density": number(density["value"] if isinstance(density, dict) else density),
                }
    for name, entry in read_yaml(BOOK / "pantry.yaml").get("colourants", {}).items():
        most = number(entry["usual"][1])
        density = number(entry.get("density", "0.6 g/ml"))
        table[name] = {"lightfast": "fair", "density": density, **entry, "full": most * 0.8}
        table[name]["density"] = density
    return table


def rgb(colour: str) -> Grid:
    return np.array([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)])


def on_day(fresh: str, cured: str, day: float, lightfast: str = "good") -> Grid:
    left = math.exp(-day / FADING_DAYS.get(lightfast, 8.0))
    return rgb(cured) + (rgb(fresh) - rgb(cured)) * left


def dose(amount: str, density: float, oils_kg: float) -> float:
    """Grams to a kilogram of oils."""
    number, unit, per = re.match(r"([\d.]+)\s*(g|tsp|tbsp|%)\s*(/\s*kg)?", amount).groups()  # type: ignore[union-attr]
    if unit == "%":
        return 10 * float(number)
    grams = float(number) * (1.0 if unit == "g" else SPOON_ML[unit] * density)
    return grams if per else grams / oils_kg


def portion_colour(portion: Any, day: float, table: dict[str, dict[str, Any]]) -> Grid:
    """The batter's own ivory with each colour stirred in to the depth of its dose."""
    share = share_of(portion["share"])
    stirred: list[tuple[float, Grid]] = []
    for item in portion.get("additions", []):
        if (entry := table.get(item["what"])) is not None:
            grams = dose(item["amount"], entry["density"], share)
            depth = 1 - math.exp(-2.6 * grams / entry["full"])
            stirred.append(
                (depth, on_day(entry["fresh"], entry["cured"], day, entry.get("lightfast", "good")))
            )
    infusions = read_yaml(BOOK / "pantry.yaml").get("infusions", {})
    steeped = [
        infusions[oil]["botanical"] for oil in portion.get("oils", {}).get("parts", {}) if oil in infusions
    ]
    steeped += portion.get("infused", {}).values()
    for plant in steeped:
        if (entry := table.get(plant)) is not None:
            stirred.append(
                (0.75, on_day(entry["fresh"], entry["cured"], day, entry.get("lightfast", "good")))
            )
    for item in portion.get("liquids", []):
        if item["what"] in LIQUID_TINTS:
            stirred.append((0.35, on_day(*LIQUID_TINTS[item["what"]], day, "fair")))
    colour = on_day(*BATTER, day)
    for depth, tint in sorted(stirred, key=lambda pair: float(pair[1].sum()), reverse=True):
        colour = colour + (tint - colour) * depth
    return colour


def share_of(text: str) -> float:
    if "/" in text:
        above, below = text.split("/")
        return float(above) / float(below)
    return float(text.rstrip("% ")) / (100 if "%" in text else 1)


def dice(*words: str) -> np.random.Generator:
    return np.random.default_rng(int.from_bytes(hashlib.sha256("/".join(words).encode()).digest()[:8], "big"))


def cloud(high: int, wide: int, cell_y: float, cell_x: float, rng: np.random.Generator) -> Grid:
    """Smooth noise about zero, its grain as large as the cell."""
    small = rng.standard_normal((max(3, round(high / cell_y) + 2), max(3, round(wide / cell_x) + 2)))
    picture = Image.fromarray(small.astype(np.float32)).resize((wide, high), Image.Resampling.BICUBIC)
    return np.asarray(picture).astype(np.float64)


def soft(grid: Grid, radius: float) -> Grid:
    picture = Image.fromarray((np.clip(grid, 0, 1) * 255).astype(np.uint8))
    return np.asarray(picture.filter(ImageFilter.GaussianBlur(radius))).astype(np.float64) / 255


def face_of(recipe: Any) -> Face:
    mould = recipe.get("mould") or recipe["oils"]["fill"]["mould"]
    size = read_yaml(BOOK / "pantry.yaml")["moulds"][mould]
    (kind, sides), *_ = size.items()
    if kind == "cylinder":
        across = float(sides["diameter"].split()[0])
        return Face("round", across, across)
    if kind == "slab":
        # A tray is judged from above: the bar lies as it was poured.
        return Face("slab", float(sides["width"].split()[0]), 62.0, top_view=True)
    return Face("loaf", float(sides["width"].split()[0]), float(sides["height"].split()[0]))


def laid_out(shot: Shot, recipe: Any, extra: str) -> tuple[Layout, dict[str, int]]:
    steps = tuple(PourStep.model_validate(step) for step in recipe["pour"])
    plain = Shade("#ffffff", "#ffffff")
    portions = tuple(DrawnPortion(p["name"], share_of(p["share"]), plain) for p in recipe["portions"])
    ids = {step.line.of for step in steps if step.line} | {step.embeds.of for step in steps if step.embeds}
    ids |= {step.top.sprinkle for step in steps if step.top and step.top.sprinkle}
    extras = tuple(DrawnExtra(name, name, plain) for name in sorted(ids))
    scene = Scene(f"{shot.lot} {extra}", portions, extras, face_of(recipe), steps)
    return lay_out(scene), {portion.name: at + 1 for at, portion in enumerate(portions)}


class Easel:
    """Drawing lengths to pixels, and polygons to masks."""

    def __init__(self, layout: Layout, pixels: float) -> None:
        self.scale = pixels * FINE / 100
        left, low, right, high = layout.mould.outline.bounds
        self.left, self.high = left - 3, high + 3
        self.size = (round((right - left + 6) * self.scale), round((high - low + 6) * self.scale))

    def points(self, ring: Grid) -> list[tuple[float, float]]:
        return [((x - self.left) * self.scale, (self.high - y) * self.scale) for x, y in np.asarray(ring)]

    def mask(self, rings: Any) -> Image.Image:
        whole = Image.new("1", self.size)
        ImageDraw.Draw(whole).polygon(self.points(rings[0]), fill=1)
        for ring in rings[1:]:
            one = Image.new("1", self.size)
            ImageDraw.Draw(one).polygon(self.points(ring), fill=1)
            whole = ImageChops.logical_xor(whole, one)
        return whole


def paint_face(shot: Shot, recipe: Any, pixels: float, extra: str) -> Image.Image:
    """The cut face as RGBA, lit from the upper left."""
    table = colour_table()
    layout, numbers = laid_out(shot, recipe, extra)
    easel = Easel(layout, pixels)
    wide, high = easel.size
    rng = dice(shot.lot, extra)
    labels = Image.new("L", easel.size)
    for patch in layout.patches:
        labels.paste(numbers[patch.name], mask=easel.mask(patch.rings))
    grain = [cloud(high, wide, cell, cell, rng) for cell in (90, 90, 22, 22, 7, 7)]
    y, x = np.mgrid[0:high, 0:wide]
    drift = [4.0 * grain[at] + 1.6 * grain[at + 2] + 0.8 * grain[at + 4] for at in (0, 1)]
    there = np.clip(y + drift[0], 0, high - 1).astype(int), np.clip(x + drift[1], 0, wide - 1).astype(int)
    seen = np.asarray(labels)[there]
    seen = np.where(seen == 0, np.asarray(labels), seen)
    inks = np.vstack(
        [on_day(*BATTER, shot.day)] + [portion_colour(p, shot.day, table) for p in recipe["portions"]]
    )
    face = inks[seen]
    blurred = [soft(face[..., channel], 1.6) for channel in range(3)]
    face = np.stack(blurred, -1)
    tones = rng.standard_normal((len(inks), 3)) * 0.2
    mottle = 0.016 * grain[0] + 0.011 * grain[2] + 0.009 * grain[4]
    face *= 1 + (mottle * (1 + tones[seen][..., 0]))[..., None] * np.array([1.0, 1.03, 1.12])
    for at, portion in enumerate(recipe["portions"], 1):
        if any(item["what"] in SPECKLED for item in portion.get("additions", [])):
            dots = soft((rng.random((high, wide)) > 0.9985) * 1.0, 1.1) * 5 * (seen == at)
            face *= 1 - 0.3 * np.clip(dots, 0, 1)[..., None]
    face = dress(face, layout, easel, shot, recipe, table, rng)
    pits = soft((rng.random((high, wide)) > 0.99996) * 1.0, 1.8) * 14
    face *= (
        1 - 0.28 * np.clip(pits, 0, 1)[..., None] + 0.2 * np.clip(np.roll(pits, 3, (0, 1)), 0, 1)[..., None]
    )
    drag = cloud(high, wide, 3.0, 900, rng) * 0.006 + cloud(high, wide, 11.0, 1400, rng) * 0.007
    face *= 1 + drag[..., None]
    face = spoil(face, shot.fault, rng)
    return lit(face, layout, easel, shot)


def dress(
    face: Grid,
    layout: Layout,
    easel: Easel,
    shot: Shot,
    recipe: Any,
    table: dict[str, Any],
    rng: np.random.Generator,
) -> Grid:
    """Pencil lines, windows of scrap, petals and salt."""
    high, wide = face.shape[:2]
    for dust in layout.dust:
        line = Image.new("L", easel.size)
        ImageDraw.Draw(line).line(easel.points(dust.line), fill=255, width=5, joint="curve")
        veil = soft(np.asarray(line) / 255, 1.0) * np.clip(
            0.75 + 0.35 * cloud(high, wide, 9, 16, rng), 0.15, 1
        )
        face = face + (rgb(table[dust.id]["fresh"]) - face) * (0.8 * veil)[..., None]
    scraps = read_yaml(BOOK / "pantry.yaml").get("scraps", {})
    for embed in layout.embeds:
        ring = np.array(embed.shape.exterior.coords)
        inside = soft(np.asarray(easel.mask([ring])).astype(float), 1.2)
        source = read_recipe(scraps[embed.id]["of"]) if embed.id in scraps else recipe
        pane = [portion_colour(portion, 200, table) for portion in source["portions"]]
        swept = 2.4 * cloud(high, wide, 110, 170, rng) + 0.5 * cloud(high, wide, 40, 60, rng)
        folds = np.sin(2.1 * swept) + 0.5 * cloud(high, wide, 80, 120, rng)
        steps = [float(np.quantile(folds, q)) for q in (0.42, 0.8)]
        marble = np.stack(pane)[np.digitize(folds, steps).clip(0, len(pane) - 1)]
        marble = np.stack([soft(marble[..., channel], 2.2) for channel in range(3)], -1)
        face = face + (marble - face) * inside[..., None]
        rim = soft(inside, 5) - soft(np.roll(inside, 6, (0, 1)), 5)
        face *= 1 + 0.16 * shot.day / 42 * rim[..., None]
    for sprinkled in layout.sprinkle:
        salt = sprinkled.id == "salt"
        for petal in sprinkled.petals:
            shape = np.array(petal.outline)
            middle = shape.mean(0)
            spread = 0.42 if salt else 1.35
            inside = soft(np.asarray(easel.mask([middle + (shape - middle) * spread])).astype(float), 1.0)
            colour = rgb("#fbfaf6") if salt else rgb("#e0a845" if petal.pale else "#d3812b")
            face *= 1 - 0.35 * np.clip(np.roll(inside, 5, (0, 1)) - inside, 0, 1)[..., None]
            face = face + (colour * (1 + 0.05 * rng.standard_normal()) - face) * inside[..., None]
    return face


def spoil(face: Grid, fault: str, rng: np.random.Generator) -> Grid:
    high, wide = face.shape[:2]
    y, x = np.mgrid[0:high, 0:wide] / max(high, wide)
    if fault == "ash":
        drifts = cloud(high, wide, 170, 210, rng) + 0.6 * cloud(high, wide, 50, 60, rng)
        powder = drifts + 0.1 * cloud(high, wide, 12, 14, rng) - 3.0 * y + 1.45
        veil: Grid = soft(np.clip(0.3 + 0.3 * powder, 0, 0.78), 3)[..., None]
        return face + (rgb("#f1efe9") - face) * veil * (0.93 + 0.07 * rng.random((high, wide, 1)))
    if fault == "ricing":
        for cell, level in ((7, 1.7), (10, 1.9), (14, 2.2)):
            grains = np.clip((cloud(high, wide, cell, cell * 1.2, rng) - level) * 3, 0, 1)
            face = face + (rgb("#f7f0df") - face) * (0.72 * soft(grains, 0.8))[..., None]
        return face
    if fault == "faded":
        grey: Grid = face.mean(-1, keepdims=True) * 0.35 + rgb("#d9cfae") * 0.65
        away = 0.75 * (x + 0.35 * y) + 0.05 * cloud(high, wide, 160, 160, rng)
        light: Grid = np.clip(0.92 - away, 0.1, 0.85)[..., None]
        return face + (grey - face) * light
    if fault == "spot":
        for _ in range(5):
            at_y, at_x = rng.uniform(0.12, 0.62), rng.uniform(0.18, 0.85)
            size = rng.uniform(0.012, 0.038)
            ragged = 1 + 0.22 * cloud(high, wide, 30, 30, rng) + 0.1 * cloud(high, wide, 9, 9, rng)
            away = np.hypot(y - at_y, x - at_x) / size / np.clip(ragged, 0.5, 2)
            halo, core = np.clip(1.9 - away, 0, 1) * 0.45, np.clip(1.25 - away, 0, 1) * 0.7
            face = face + (rgb("#d8a04a") - face) * halo[..., None]
            face = face + (rgb("#a8642a") - face) * core[..., None]
    return face


def lit(face: Grid, layout: Layout, easel: Easel, shot: Shot) -> Image.Image:
    """Rounded edges, a sheen while the bar is wet, and the fall of the light over the face."""
    wide, high = easel.size
    outline = np.asarray(easel.mask([np.array(layout.mould.outline.exterior.coords)])).astype(float)
    alpha = np.clip(soft(outline, 3.0) * 3 - 1, 0, 1)
    swell = soft(outline, 11)
    slope_y, slope_x = np.gradient(swell)
    edge = (slope_x + 1.25 * slope_y) * 9
    y, x = np.mgrid[0:high, 0:wide]
    fall = 1.05 - 0.13 * (x / wide * 0.6 + y / high * 0.4)
    face = face * (fall * (1 + np.clip(edge, -0.36, 0.3)))[..., None]
    wet = 0.09 * math.exp(-shot.day / 9) + 0.02
    glint = np.exp(-(((x / wide - 0.26) * 1.5 + (y / high - 0.2)) ** 2) / 0.02)
    face = face + (wet * glint)[..., None]
    picture = np.concatenate([np.clip(face, 0, 1), alpha[..., None]], -1)
    image = Image.fromarray((picture * 255).astype(np.uint8), "RGBA")
    shrink = 1 - 0.045 * (1 - math.exp(-shot.day / 13))
    return image.resize((round(wide / FINE * shrink), round(high / FINE * shrink)), Image.Resampling.LANCZOS)
