"""The maker's own colours go before the table's: from chips in the pantry, from photos of batches."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import read_book
from saponary.build.proof import prove
from saponary.pantry.colour import difference, seen
from saponary.pantry.lab import lab
from saponary.reading.files import Folder
from support import PLAIN, write_book

PORTIONS = """\
portions:
  - {name: light, share: 1/2}
  - {name: gold, share: 1/2, additions: [{what: turmeric, amount: 4 g/kg}]}
pour: [{beds: [{of: light}, {of: gold}]}]
"""
BATCH = """\
batches:
  - lot: A1
    poured: 2026-03-02
    formula: FINGERPRINT
    photos:
      - {file: a.jpg, day: 0, alt: fresh, colours: {gold: "#c07030"}}
      - {file: b.jpg, day: 40, alt: cured, colours: {gold: "#b87038"}}
"""


def test_colour_differences_are_those_of_the_standard() -> None:
    """CIE L*a*b* of the sRGB primaries under D65, as printed in colour handbooks (from memory)."""
    assert lab("#ffffff") == pytest.approx((100.0, 0.0, 0.0), abs=0.02)
    assert lab("#ff0000") == pytest.approx((53.24, 80.09, 67.20), abs=0.05)
    assert lab("#0000ff") == pytest.approx((32.30, 79.19, -107.86), abs=0.05)
    assert difference("#123456", "#123456") == 0.0


def test_a_chip_of_the_makers_own_is_the_evidence(tmp_path: Path) -> None:
    pantry = """\
colourants:
  turmeric:
    chips:
      - {dose: 4 g/kg, day: 1, colour: "#b06020", note: tile 7}
      - {dose: 4 g/kg, day: 60, colour: "#b06828", note: tile 7}
      - {dose: 1 g/kg, day: 60, colour: "#e0d0a0"}
"""
    book = read_book(Folder(write_book(tmp_path, {"pantry.yaml": pantry, "recipes/a.md": PLAIN})))
    assert book.findings == []
    colour = book.pantry.additions["turmeric"].colour
    assert colour is not None
    strong = seen(colour, 5.0)
    assert (strong.fresh, strong.cured, strong.stays) == ("#b06020", "#b06828", True)
    assert strong.cured_chip is not None and strong.cured_chip.note == "tile 7"
    assert seen(colour, 1.2).cured == "#e0d0a0"


def test_a_photo_of_a_batch_of_this_formula_is_evidence_for_all_recipes(tmp_path: Path) -> None:
    text = PLAIN.replace("signed:\n", PORTIONS + BATCH + "signed:\n")
    root = write_book(
        tmp_path,
        {"recipes/a.md": text.replace("FINGERPRINT", "000000"), "photos/a.jpg": "", "photos/b.jpg": ""},
    )
    first = prove(root)
    assert "fading" in {f.rule for f in first.findings}, "a batch of another formula is no evidence"
    mark = first.recipes[0].computed.fingerprint
    write_book(root, {"recipes/a.md": text.replace("FINGERPRINT", mark)})
    second = prove(root)
    assert "fading" not in {f.rule for f in second.findings}
    colour = second.book.pantry.additions["turmeric"].colour
    assert colour is not None
    assert [(c.day, c.colour, c.lot) for c in colour.chips] == [
        (0, "#c07030", "A1"),
        (40, "#b87038", "A1"),
    ]
    assert [c.dose for c in colour.chips] == pytest.approx([4.0, 4.0])
