"""What a list calls the maker's own ingredients: never by the name of who sold them."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.label.lists import bar
from saponary.label.tables import jurisdictions
from support import PLAIN, write_book

VALUE = "saponification-value: {value: 196 mg/g, range: [194 mg/g, 198 mg/g]}"
NAME = "name: Lard from Hollins the butcher"
RECIPE = PLAIN.replace("olive: 60 %", "hollins: 60 %").replace("stated:\n  superfat: 5.0 %\n", "")


def lists(root: Path, entry: str) -> tuple[str, list[str]]:
    """All that the lists of a recipe with this oil print, and what is found in the pantry."""
    files = {"pantry.yaml": f"oils:\n  hollins: {{{entry}}}\n", "recipes/plain.md": RECIPE}
    proof = prove(write_book(root, files))
    (made,) = proof.recipes
    whole = bar(made.computed)
    told = [whole.ingredients(law, way) for law in jurisdictions().values() for way in ("charged", "found")]
    printed = [
        text for each in told for line in each.entries for text in (line.name, *line.commons, *each.notes)
    ]
    here = [f for f in proof.findings if f.place.file == "pantry.yaml"]
    return " | ".join(printed), [f.rule for f in here if "could be checked by" not in f.message]


def test_an_oil_of_which_no_name_is_known_is_told_by_its_kind(tmp_path: Path) -> None:
    said, found = lists(tmp_path, f"{NAME}, {VALUE}, kind: fat")
    assert "Hollins" not in said and found == ["unnamed-ingredient"]
    assert "Fat of no known name (sodium soap)" in said
    assert "No name known to us, so only the kind is told: Fat of no known name" in said


def test_an_oil_like_lard_goes_by_the_names_of_lard(tmp_path: Path) -> None:
    """INCI of lard and of its sodium soap, from memory."""
    said, found = lists(tmp_path, f"{NAME}, {VALUE}, like: lard")
    assert "Hollins" not in said and found == []
    assert "Sodium Lardate" in said and "Adeps Suillus" in said and "of no known name" not in said


@pytest.mark.parametrize("supplier", ["Hollins", "hollins the butcher"])
def test_a_supplier_within_a_name_is_found(tmp_path: Path, supplier: str) -> None:
    _, found = lists(tmp_path, f"{NAME}, {VALUE}, like: lard, supplier: {supplier}")
    assert found == ["unnamed-ingredient"]


def test_a_name_that_the_maker_states_stands(tmp_path: Path) -> None:
    said, found = lists(tmp_path, f"name: Rowan oil, {VALUE}, inci: Sorbus Aucuparia Seed Oil")
    assert "Sorbus Aucuparia Seed Oil" in said and found == []
