"""Draws the demo book's photographs: soap bars on a board, from the recipes and their colours.

Run it with `PYTHONPATH=generator python tests/demo_photos/draw.py [NAME ...]`. It writes a JPEG to `demo_book/photos/`
for every photo that a recipe names; a book that names none yet gets days 0, 14 and 42 of its latest lots.
A name that holds `ash`, `ricing`, `faded` or `spot` shows that fault. Everything is invented, the cameras
and places in the metadata too: they are there so that the build has something to strip.
"""

from __future__ import annotations

import math
import sys
from concurrent.futures import ProcessPoolExecutor
from datetime import date, timedelta
from io import BytesIO
from typing import Any

import numpy as np
from bar import BOOK, Grid, Shot, cloud, dice, face_of, paint_face, read_recipe, rgb, soft
from PIL import Image, ImageDraw, ImageFilter, ImageFont

WIDE, HIGH = 1600, 1200
MOST_BYTES = 240_000
DAYS = (0, 14, 42)
DEFAULT_FAULTS = {
    "ef-001": ("ash", 14),
    "bd-002": ("ricing", 14),
    "uw-001": ("faded", 42),
    "kw-006": ("spot", 42),
}


def shots() -> list[Shot]:
    named: list[Shot] = []
    planned: list[Shot] = []
    for path in sorted((BOOK / "recipes").glob("*.md")):
        recipe = read_recipe(path.stem)
        batches = recipe.get("batches", [])
        if not recipe.get("portions") or not batches:
            continue
        full = [batch for batch in batches if str(DAYS[-1]) in batch.get("weighed", {})] or batches
        for batch in batches:
            lot, low = batch["lot"], batch["lot"].lower()

            def shot(file: str, day: int, slug: str = path.stem, batch: Any = batch) -> Shot:
                return Shot(file, slug, batch["lot"], batch["poured"], day)

            refs = list(batch.get("photos", []))
            if (hero := recipe.get("photo")) and hero["file"].lower().startswith(low):
                refs.append(hero)
            named += [shot(ref["file"], int(ref.get("day", DAYS[-1]))) for ref in refs]
            if lot == full[-1]["lot"]:
                planned += [shot(f"{low}-day{day}.jpg", day) for day in DAYS]
            if low in DEFAULT_FAULTS:
                fault, day = DEFAULT_FAULTS[low]
                planned.append(shot(f"{low}-day{day}-{fault}.jpg", day))
    unique = {one.file: one for one in (named or planned) if one.file.lower().endswith((".jpg", ".jpeg"))}
    return list(unique.values())


def board(kind: str, rng: np.random.Generator) -> Grid:
    """What the bar lies on: planks, slate or linen."""
    y, x = np.mgrid[0:HIGH, 0:WIDE].astype(float)
    broad = cloud(HIGH, WIDE, 420, 520, rng)
    if kind == "linen":
        folds = 0.02 * broad + 0.012 * cloud(HIGH, WIDE, 90, 700, rng)
        thick = [1 + 0.5 * cloud(HIGH, WIDE, 5, 160, rng), 1 + 0.5 * cloud(HIGH, WIDE, 160, 5, rng)]
        weave = thick[0] * np.sin(y * math.tau / 5.2) + thick[1] * np.sin(x * math.tau / 5.2)
        cloth: Grid = (1 + folds + 0.03 * weave)[..., None]
        return rgb("#c9beaa") * cloth
    if kind == "slate":
        steps = np.floor(1.6 * cloud(HIGH, WIDE, 260, 420, rng) + 0.7 * cloud(HIGH, WIDE, 60, 120, rng))
        ledge = soft(np.clip(np.abs(np.diff(steps, axis=0, prepend=steps[:1])), 0, 1), 1.6)
        grain = 0.035 * cloud(HIGH, WIDE, 9, 26, rng) + 0.03 * cloud(HIGH, WIDE, 3, 5, rng)
        return rgb("#4d5559") * (1 + 0.05 * broad + 0.03 * steps + grain + 0.35 * ledge)[..., None]
    wide = 330.0
    plank = np.floor((y + 95) / wide).astype(int)
    bend = 26 * cloud(HIGH, WIDE, 300, 700, rng) + 61.0 * plank
    rings = np.sin((y + bend) / 9.5 + 2.2 * cloud(HIGH, WIDE, 26, 900, rng))
    fibre = 0.030 * cloud(HIGH, WIDE, 2.2, 120, rng) + 0.022 * cloud(HIGH, WIDE, 5, 380, rng)
    tone = 0.07 * rng.standard_normal(8)[plank]
    gap = np.abs((y + 95) % wide - 2) < 3.5
    shade = 1 + 0.028 * rings + fibre + tone + 0.03 * broad
    wood: Grid = (shade * (1 - 0.62 * soft(gap * 1.0, 1.3)))[..., None]
    return rgb("#a58766" if kind == "oak" else "#8b969b") * wood


def put(ground: Image.Image, thing: Image.Image, at: tuple[int, int], thick: int) -> None:
    """Lay a thing down: its long shadow away from the window, its side, and its face."""
    alpha = thing.getchannel("A")
    dark = np.zeros((HIGH, WIDE))
    for reach, blur, deep in ((0.2, 5, 0.55), (0.7, 16, 0.36), (1.7, 44, 0.30)):
        cast = Image.new("L", (WIDE, HIGH))
        away = 6 + reach * thick
        cast.paste(alpha, (round(at[0] + 0.9 * away), round(at[1] + 0.35 * thick + 0.75 * away)), alpha)
        dark = 1 - (1 - dark) * (1 - deep * soft(np.asarray(cast) / 255, blur))
    shaded = np.asarray(ground) * (1 - dark[..., None] * np.array([0.94, 0.97, 1.0]))
    ground.paste(Image.fromarray(shaded.astype(np.uint8)))
    # The side takes the colours of the rim; what is clear around the thing must not darken them.
    sheer = np.asarray(alpha)[..., None] / 255
    rim = np.asarray(thing.convert("RGB")) / 255 * sheer
    rim = (
        np.stack([soft(rim[..., channel], 3.5) for channel in range(3)], -1)
        / np.maximum(soft(sheer[..., 0], 3.5), 0.02)[..., None]
    )
    for step in range(thick, 0, -1):
        side = np.clip(rim * (1.0 - 0.3 * step / thick), 0, 1) * 255
        ground.paste(
            Image.fromarray(side.astype(np.uint8)), (at[0] + round(0.22 * step), at[1] + step), alpha
        )
    ground.paste(thing, at, alpha)


def tag(shot: Shot) -> Image.Image:
    paper = (
        np.ones((250, 420, 1))
        * rgb("#cdb48d")
        * (1 + 0.03 * cloud(250, 420, 3, 9, dice(shot.file)))[..., None]
    )
    image = Image.fromarray((np.clip(paper, 0, 1) * 255).astype(np.uint8))
    pen = ImageDraw.Draw(image)
    pen.text((130, 42), shot.lot, fill="#3a3026", font=ImageFont.load_default(74))
    pen.text((132, 136), f"day {shot.day}", fill="#54463a", font=ImageFont.load_default(56))
    pen.ellipse((44, 103, 88, 147), fill="#5a4c3b")
    mask = Image.new("L", image.size)
    ImageDraw.Draw(mask).polygon([(4, 70), (66, 4), (416, 4), (416, 246), (66, 246), (4, 180)], fill=255)
    image.putalpha(mask)
    return image.resize((210, 125), Image.Resampling.LANCZOS)


def photograph(shot: Shot) -> Image.Image:
    recipe = read_recipe(shot.recipe)
    rng = dice(shot.file, "camera")
    kinds = {"Stone": "oak", "Signals": "paint", "Garden": "linen"}
    kind = "slate" if shot.fault else kinds.get(recipe.get("collection", ""), "oak")
    ground = Image.fromarray((np.clip(board(kind, dice(shot.recipe, kind)), 0, 1) * 255).astype(np.uint8))
    pixels = 900 if face_of(recipe).kind != "round" else 740
    # The bar in front is the marked one, the same on each day; its neighbour has been turned by then.
    for extra, middle, angle in (("b", (1400, 200), -24.0), ("a", (775, 650), 5.0)):
        bar = paint_face(shot, recipe, pixels, extra)
        bar = bar.rotate(angle + rng.uniform(-2.5, 2.5), Image.Resampling.BICUBIC, expand=True)
        at = round(middle[0] + rng.uniform(-14, 14) - bar.width / 2), round(middle[1] - bar.height / 2)
        put(ground, bar, at, 52)
    label = tag(shot).rotate(-7 + rng.uniform(-3, 3), Image.Resampling.BICUBIC, expand=True)
    put(ground, label, (96, 60), 2)
    return developed(ground, rng)


def developed(picture: Image.Image, rng: np.random.Generator) -> Image.Image:
    """The window's warmth, a darker rim, corners out of focus, and a little grain."""
    y, x = np.mgrid[0:HIGH, 0:WIDE].astype(float)
    rim = np.hypot((x - 760) / 1000, (y - 620) / 760)
    sharp, dull = (
        np.asarray(p).astype(float) / 255 for p in (picture, picture.filter(ImageFilter.GaussianBlur(4)))
    )
    grade = sharp + (dull - sharp) * np.clip(1.6 * rim - 0.95, 0, 1)[..., None]
    window = 1.12 - 0.16 * (x / WIDE * 0.7 + y / HIGH * 0.5) - 0.16 * np.clip(rim - 0.55, 0, 1)
    grade = grade * window[..., None] * np.array([1.015, 1.0, 0.97])
    grade = grade + 0.007 * cloud(HIGH, WIDE, 1.7, 1.7, rng)[..., None]
    return Image.fromarray((np.clip(grade, 0, 1) * 255 + 0.5).astype(np.uint8))


def jpeg(shot: Shot) -> bytes:
    """Day 14 is stored lying on its side, as a phone does; the first day tells a place in the open sea."""
    picture = photograph(shot)
    exif = Image.Exif()
    exif[0x010F], exif[0x0110] = "Morrowlight", "Box Two"
    exif[0x0132] = f"{date.fromisoformat(shot.poured) + timedelta(shot.day):%Y:%m:%d} 10:20:30"
    exif.get_ifd(0x8769)[0xA431] = "ML-0000417"
    if shot.day == 14:
        exif[0x0112] = 6
        picture = picture.transpose(Image.Transpose.ROTATE_90)
    if shot.day in (0, 14):
        exif.get_ifd(0x8825).update({1: "N", 2: (47.0, 11.0, 9.0), 3: "W", 4: (29.0, 33.0, 3.0)})
    for quality in (85, 80, 74, 68):
        out = BytesIO()
        picture.save(
            out, "JPEG", quality=quality, optimize=True, exif=exif, comment=b"marked bar, north window"
        )
        if out.tell() <= MOST_BYTES:
            break
    return out.getvalue()


def main(names: list[str]) -> None:
    wanted = [shot for shot in shots() if not names or shot.file in names]
    with ProcessPoolExecutor() as workers:
        for shot, data in zip(wanted, workers.map(jpeg, wanted), strict=True):
            path = BOOK / "photos" / shot.file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
            print(f"{shot.file}: {len(data) // 1000} kB")


if __name__ == "__main__":
    main(sys.argv[1:])
