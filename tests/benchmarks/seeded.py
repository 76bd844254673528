"""Books of any number of recipes, the same for the same seed: `python tests/benchmarks/seeded.py FOLDER 1000`.

Every recipe has oils, water and superfat of its own; half are poured in portions, a third have
batches in their own file, a ninth in `batches/`, a tenth a photo. Names and notes are invented.
"""

from __future__ import annotations

import io
import random
import sys
from pathlib import Path

from PIL import Image

SIGNED = "signed"
OILS = (
    "olive",
    "coconut",
    "sunflower-high-oleic",
    "shea-butter",
    "castor",
    "rapeseed",
    "tallow",
    "cocoa-butter",
)
POWDERS = (
    "kaolin",
    "activated-charcoal",
    "ultramarine-blue",
    "turmeric",
    "iron-oxide-red",
    "titanium-dioxide",
)
HUES = ("Slate", "Chalk", "Amber", "Moss", "Ash", "Madder", "Dune", "Kelp", "Rust", "Plum")
THINGS = ("Bar", "Ladder", "Tide", "Quarry", "Lamp", "Rope", "Sill", "Harbour", "Wall", "Orchard")
POURS = (
    ["beds:\n      - {of: first, depth: 50 %}\n      - {of: second, rest: true}"],
    ["beds:\n      - {of: first, depth: 45 %, slope: 6}\n      - {of: second, rest: true}", "swirl: {tool: comb, passes: 2}"],
    ["plops: {of: [first, second], across: 38 mm}", "swirl: {tool: skewer, passes: 2}"],
    ["columns: {of: [first, second], count: 4}"],
)  # fmt: skip
BOOK = """\
title: A Book of {count}
maker: Nobody
language: en
base-url: https://book.invalid
superfat: 5 %
water: {{lye-strength: 33 %}}
"""
PANTRY = """\
oils:
  olive: {price: 8.40 / kg}
moulds:
  loaf-ten:
    loaf: {length: 250 mm, width: 90 mm, height: 70 mm}
colourants:
  own-madder: {name: Madder of our own, fresh: "#a4503c", cured: "#b98f86", usual: [1 g/kg, 8 g/kg]}
"""
NOTES = """\
## The pour

{{lye}} of sodium hydroxide in {{plain-water}} of water. The batter goes in at the pace of the hand that
stirs it, and the {hue} part waits until the other can carry it. It was made on a cold morning by an open door,
and the wind did the rest.

## Afterwards

The superfat is {{superfat}}. Keep the bars from the window. See [another]({other}.md).
"""


def write_book(root: Path, count: int, seed: int = 1) -> Path:
    """A whole book in a folder that may exist."""
    for folder in ("recipes", "batches", "photos"):
        (root / folder).mkdir(parents=True, exist_ok=True)
    (root / "book.yaml").write_text(BOOK.format(count=count), encoding="utf-8")
    (root / "pantry.yaml").write_text(PANTRY, encoding="utf-8")
    shots = max(1, count // 100)
    for n in range(shots):
        (root / "photos" / f"bar-{n}.jpg").write_bytes(photo(n))
    for n in range(count):
        text, batches = recipe(n, count, random.Random(seed * 1_000_003 + n), shots)
        (root / "recipes" / f"r-{n}.md").write_text(text, encoding="utf-8")
        if batches:
            (root / "batches" / f"r-{n}.yaml").write_text(batches, encoding="utf-8")
    return root


def recipe(n: int, count: int, chance: random.Random, shots: int) -> tuple[str, str]:
    """One recipe's file, and its file of batches where it has one."""
    hue = HUES[n % len(HUES)]
    superfat = chance.choice((4, 5, 6, 7))
    lines = [
        "---",
        f"title: {hue} {chance.choice(THINGS)} {n}",
        f"summary: A {hue.lower()} bar, the {n}th of its kind.",
    ]
    lines += [f"collection: {chance.choice(THINGS)}s", *_oils(chance), f"superfat: {superfat} %"]
    lines += [f"water: {{lye-strength: {chance.randint(28, 36)} %}}", "mould: loaf-ten"]
    if n % 2:
        lines += _poured(chance)
    else:
        lines += [
            "additions:",
            f"  - {{what: {chance.choice(POWDERS)}, amount: {chance.randint(2, 6)} g, at: trace}}",
        ]
    if n % 10 == 0:
        lines.append(f"photo: {{file: bar-{n // 10 % shots}.jpg, day: 42, alt: A {hue.lower()} bar}}")
    made = [_batch(n, b, chance) for b in range(chance.randint(1, 3))] if n % 3 == 0 else []
    if made and n % 9:
        lines += ["batches:", *made]
    lines += [f"{SIGNED}:", f"  superfat: {superfat}.0 %", "---", ""]
    notes = NOTES.format(hue=hue.lower(), other=f"r-{chance.randrange(count)}")
    return "\n".join(lines) + notes, "\n".join(["batches:", *made, ""]) if made and not n % 9 else ""


def _oils(chance: random.Random) -> list[str]:
    names = chance.sample(OILS, chance.randint(3, 5))
    shares = [chance.randint(8, 20) for _ in names[1:]]
    parts = [100 - sum(shares), *shares]
    of = [f"    {name}: {share} %" for name, share in zip(names, parts, strict=True)]
    return ["oils:", f"  total: {chance.randrange(700, 1000, 50)} g", "  parts:", *of]


def _poured(chance: random.Random) -> list[str]:
    first, second = chance.sample(POWDERS, 2)
    lines = ["portions:"]
    for name, share, what in (("first", "1/2", first), ("second", "1/2", second)):
        lines += [
            f"  - name: {name}",
            f"    share: {share}",
            "    additions:",
            f"      - {{what: {what}, amount: {chance.randint(2, 4)} g}}",
        ]
    return [*lines, "pour:", *(f"  - {step}" for step in chance.choice(POURS))]


def _batch(n: int, b: int, chance: random.Random) -> str:
    start = chance.uniform(120, 130)
    weighed = ", ".join(f"{day}: {start * (0.88 + 0.12 * 0.93**day):.1f} g" for day in (0, 7, 14, 28))
    month = chance.randint(1, 12)
    return (
        f"  - lot: L{n}-{b}\n    poured: {chance.randint(2023, 2025)}-{month:02}-{chance.randint(1, 28):02}\n"
        f"    room-temperature: {chance.randint(12, 20)} °C\n    weighed: {{{weighed}}}\n"
        f"    free-alkali: {{test: phenolphthalein on the cut face, result: none, on: 2026-02-10}}"
    )


def photo(n: int) -> bytes:
    """A photo with some grain in it."""
    image = Image.effect_noise((900, 600), 40).convert("RGB")
    image = Image.blend(image, Image.new("RGB", image.size, (90 + n * 37 % 120, 110, 70)), 0.7)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return out.getvalue()


if __name__ == "__main__":
    print(write_book(Path(sys.argv[1]), int(sys.argv[2])))
