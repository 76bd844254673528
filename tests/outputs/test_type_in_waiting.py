"""The faces that stand in until the book's own type has come are as wide and as deep as it.

Sources: the widths of the faces' glyphs, by their `hmtx` tables, read on 2026-11-26: DejaVu 2.37, Noto Serif, Roboto,
and Gelasio, Tinos and Arimo, which were drawn to the widths of Georgia, Times New Roman and Arial. CSS Fonts Level 5
for `size-adjust` and the overrides, which count in the size so adjusted.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from typing import Any

from fontTools.ttLib import TTFont

from saponary.assets import resources
from support import BOOKS

STYLES = resources.templates() / "style"
WIDE = {
    "Georgia": 0.4266, "Georgia Bold": 0.4960, "Georgia Italic": 0.4348,
    "Noto Serif": 0.4618, "Noto Serif Bold": 0.4906, "Noto Serif Italic": 0.4500,
    "Times New Roman": 0.3902, "Times New Roman Bold": 0.4145, "Times New Roman Italic": 0.3917,
    "DejaVu Serif": 0.4982, "DejaVu Serif Bold": 0.5504, "DejaVu Serif Italic": 0.4982,
    "Arial": 0.4292, "Arial Bold": 0.4621, "Roboto": 0.4282, "Roboto Bold": 0.4355,
    "DejaVu Sans": 0.4917, "DejaVu Sans Bold": 0.5564,
}  # fmt: skip
"""Of a letter of the demo book's notes, on average, as a share of the size of the type."""
SANS = ("Arial", "Roboto", "DejaVu Sans")
LETTERS = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,;:'-")
FACE = re.compile(r"@font-face \{([^}]+)\}")


@cache
def letters() -> Counter[str]:
    notes = [
        path.read_text("utf-8").split("\n---", 1)[1] for path in (BOOKS["demo"] / "recipes").glob("*.md")
    ]
    return Counter(letter for letter in " ".join(" ".join(notes).split()) if letter in LETTERS)


@cache
def ours(name: str) -> tuple[float, float, float]:
    """Of a face of the book: the width of a letter, what is above the line and what below."""
    font: Any = TTFont(resources.templates() / "fonts" / f"{name}.woff2")
    glyphs, widths, unit = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    wide = sum(count * widths[glyphs[ord(letter)]][0] for letter, count in letters().items())
    return wide / letters().total() / unit, font["hhea"].ascent / unit, -font["hhea"].descent / unit


def test_a_face_in_waiting_has_the_measures_of_the_books() -> None:
    faces = FACE.findall((STYLES / "12-type-in-waiting.css").read_text("utf-8"))
    for face in faces:
        local = re.findall(r'local\("([^"]+)"\)', face)[0]
        measure = {name: float(share) / 100 for name, share in re.findall(r"([a-z-]+): ([\d.]+)%", face)}
        weight = "semibold" if "Bold" in local else "italic" if "Italic" in local else "regular"
        wide, above, below = ours(f"{'sans' if local.startswith(SANS) else 'serif'}-{weight}")
        size = measure["size-adjust"]
        assert abs(size * WIDE[local] / wide - 1) < 0.015, (local, "kerning takes up to a hundredth")
        assert abs(measure["ascent-override"] * size - above) < 0.005, local
        assert abs(measure["descent-override"] * size - below) < 0.005, local
        assert measure["line-gap-override"] == 0, local
    assert len(faces) == len(WIDE)


def test_text_is_set_in_them_while_the_type_is_fetched() -> None:
    ground = (STYLES / "10-ground.css").read_text("utf-8")
    waiting = FACE.findall((STYLES / "12-type-in-waiting.css").read_text("utf-8"))
    families = dict.fromkeys(re.findall(r'font-family: "([^"]+)"', " ".join(waiting)))
    named = [re.findall(r'"([^"]+)"', line) for line in re.findall(r"--(?:serif|sans): (.+);", ground)]
    assert [of[0] for of in named] == ["Shelf Serif", "Shelf Sans"]
    assert [name for of in named for name in of[1:]] == list(families)
    assert ground.count("font-display: swap") == 5
