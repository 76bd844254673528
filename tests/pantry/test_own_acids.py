"""A maker's own composition of a free acid: its iodine value is that of the acid, not of a fat made
from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import read_book
from saponary.lye.fatty_acids import FATTY_ACIDS, saponification_value
from saponary.pantry.standard import standard
from saponary.reading.files import Folder


def test_iodine_value_of_a_free_acid_refined_by_its_composition(tmp_path: Path) -> None:
    """One mole of oleic acid, 282.461 g, takes one mole of iodine, 253.809 g: 89.9 g per 100 g. Its
    triglyceride takes 86.0 (AOCS Cd 1c-85, factor 0.860), which is no figure of the acid."""
    text = 'oils:\n  oleic-acid:\n    fatty-acids: {"C18:1": 100 %}\n'
    (tmp_path / "pantry.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "recipes").mkdir()
    oil = read_book(Folder(tmp_path)).pantry.oils["oleic-acid"]
    assert oil.fatty_acids == {"C18:1": 1.0}
    assert oil.ester == "acid"
    assert oil.iodine_value is not None
    assert oil.iodine_value.value == pytest.approx(89.9, abs=0.05)


def test_the_table_has_acids_by_the_acid() -> None:
    """Saponification value 56105.6 over the molar mass, to the 0.1 printed."""
    acids = [oil for oil in standard().oils.values() if oil.kind == "acid"]
    assert len(acids) >= 5
    for oil in acids:
        moles = sum(part / FATTY_ACIDS[key].molar_mass for key, part in oil.fatty_acids.items())
        expected = 56105.6 * moles / sum(oil.fatty_acids.values())
        assert oil.saponification_value.value == pytest.approx(expected, abs=0.06)
        assert saponification_value(oil.fatty_acids, ester=oil.ester) == pytest.approx(expected, rel=1e-5)
