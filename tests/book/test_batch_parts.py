"""What an addition brings into the batch besides its weight."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import read_book
from saponary.reading.files import Folder
from support import PLAIN, prove_one, write_book


def test_free_alkali_in_ready_made_soap_eats_into_the_superfat(tmp_path: Path) -> None:
    """4.53 % free caustic alkali, as one cocoa-ash soap was found to hold (abstract of a 2020 paper)."""
    pantry = "additions: {ready-made-soap: {free-alkali: 4.53 %}}\n"
    book = read_book(Folder(write_book(tmp_path, {"pantry.yaml": pantry, "recipes/x.md": PLAIN})))
    text = PLAIN.replace("signed:\n", "additions: [{what: ready-made-soap, amount: 66 g}]\n" + "signed:\n")
    plain = prove_one(text).recipes[0].computed.figures
    caustic = prove_one(text, book).recipes[0].computed.figures
    assert plain.superfat == pytest.approx(0.05)
    lost = 66 * 0.0453 / 39.9971 / (1000 * caustic.chemistry.saponification_value / 1000 / 56.1056)
    assert caustic.superfat == pytest.approx(0.05 - lost, rel=1e-4)
    assert caustic.weights == plain.weights
