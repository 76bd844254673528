"""What a list calls the maker's own ingredients: never by the name of who sold them."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import read_book
from saponary.build.proof import prove
from saponary.label.lists import bar
from saponary.label.names import Name, botanical, is_pigment, of, pigments
from saponary.label.tables import jurisdictions
from saponary.lye.contents import Part
from saponary.pantry.standard import standard
from saponary.reading.files import Folder
from support import PLAIN, write_book

VALUE = "saponification-value: {value: 196 mg/g, range: [194 mg/g, 198 mg/g]}"
NAME = "name: Lard from Hollins the butcher"
RECIPE = PLAIN.replace("olive: 60 %", "hollins: 60 %").replace("signed:\n  superfat: 5.0 %\n", "")


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


NAMED = [
    (Part("water", "water", 1.0), "us", Name("Water", "Water")),
    (Part("water", "water", 1.0), "eu", Name("Aqua", "Water")),
    (Part("glycerol", "glycerol", 1.0), "eu", Name("Glycerin", "Glycerine, formed from the oils")),
    (Part("alkali", "x", 1.0, "sodium"), "eu", Name("Sodium Hydroxide", "Sodium hydroxide")),
    (Part("alkali", "x", 1.0, "potassium"), "eu", Name("Potassium Hydroxide", "Potassium hydroxide")),
    (Part("alkali", "x", 1.0), "eu", Name("Sodium Hydroxide", "Sodium hydroxide")),
    (
        Part("soap", "gone-oil", 1.0),
        "eu",
        Name("Gone oil (sodium soap)", "Gone oil, as sodium soap", "", False),
    ),
    (
        Part("salt", "gone-acid", 1.0),
        "eu",
        Name("Gone acid (sodium salt)", "Gone acid, as its sodium salt", "", False),
    ),
    (Part("impurity", "x", 1.0, "potassium"), "us", Name("Potassium Hydroxide", "Potassium hydroxide")),
    (
        Part("soap", "olive", 1.0, "sodium"),
        "eu",
        Name("Sodium Olivate", "Olive oil, as sodium soap", "Olea europaea"),
    ),
    (
        Part("soap", "olive", 1.0, "potassium"),
        "us",
        Name("Potassium Olivate", "Olive oil, as potassium soap", "Olea europaea"),
    ),
    (
        Part("soap", "beeswax", 1.0, "potassium"),
        "eu",
        Name("Beeswax (potassium soap)", "Beeswax, as potassium soap", "Apis mellifera", False),
    ),
    (
        Part("soap", "gone-oil", 1.0, "sodium"),
        "eu",
        Name("Gone oil (sodium soap)", "Gone oil, as sodium soap", "", False),
    ),
    (
        Part("oil", "olive", 1.0),
        "us",
        Name("Olive (Olea Europaea) Fruit Oil", "Olive oil", "Olea europaea"),
    ),
    (
        Part("oil", "olive", 1.0),
        "eu",
        Name("Olea Europaea Fruit Oil", "Olive oil, left over as superfat", "Olea europaea"),
    ),
    (Part("oil", "gone-oil", 1.0), "eu", Name("Gone oil", "Gone oil", "", False)),
    (
        Part("salt", "lactic-acid-88", 1.0, "sodium"),
        "eu",
        Name("Sodium Lactate", "Lactic acid, 88 % solution, as its sodium salt"),
    ),
    (
        Part("salt", "lactic-acid-88", 1.0, "potassium"),
        "eu",
        Name("Potassium Lactate", "Lactic acid, 88 % solution, as its potassium salt"),
    ),
    (
        Part("salt", "vinegar", 1.0, "potassium"),
        "eu",
        Name("Potassium Acetate", "Vinegar, 5 %, as its potassium salt"),
    ),
    (
        Part("salt", "gone-acid", 1.0, "potassium"),
        "eu",
        Name("Gone acid (potassium salt)", "Gone acid, as its potassium salt", "", False),
    ),
    (Part("liquid", "goat-milk", 1.0), "eu", Name("Caprae Lac", "Goat's milk, whole", "Capra hircus")),
    (Part("liquid", "goat-milk", 1.0), "us", Name("Goat Milk", "Goat's milk, whole", "Capra hircus")),
    (Part("liquid", "gone-milk", 1.0), "us", Name("Gone milk", "Gone milk", "", False)),
    (Part("addition", "kaolin", 1.0), "eu", Name("Kaolin", "Kaolin, white")),
    (Part("addition", "gone-clay", 1.0), "eu", Name("Gone clay", "Gone clay", "", False)),
]


@pytest.mark.parametrize(("part", "place", "name"), NAMED, ids=lambda value: str(getattr(value, "id", "")))
def test_every_kind_of_part_has_its_names(part: Part, place: str, name: Name) -> None:
    """INCI names of the Union and the English names of 21 CFR 701.3, as the standard pantry has them (from memory).

    As charged in the United States, as found in the cured bar in the Union: only there is an oil left over.
    """
    law = jurisdictions()[place]
    assert of(part, standard(), law, law.way) == name


@pytest.mark.parametrize(
    ("steeped", "text", "common", "listed"),
    [
        ("madder", "Rubia Tinctorum Root Extract", "Madder root, ground", True),
        ("turmeric", "Curcuma Longa Root Extract", "Turmeric, ground", True),
        ("gone-root", "Gone root", "Gone root", False),
    ],
)
def test_what_an_oil_was_steeped_with_is_an_extract(
    steeped: str, text: str, common: str, listed: bool
) -> None:
    """A powder gives its extract (INCI usage, from memory); what is not known keeps its bare name."""
    named = botanical(steeped, standard(), jurisdictions()["eu"])
    assert (named.text, named.common, named.listed) == (text, common, listed)


@pytest.mark.parametrize(
    ("place", "names"),
    [("eu", [("CI 77007", "Ultramarine blue")]), ("us", [("Ultramarines", "Ultramarine blue")])],
)
def test_a_pigment_goes_by_its_number_or_its_name(place: str, names: list[tuple[str, str]]) -> None:
    """Colour Index 77007 (Regulation (EC) 1223/2009, annex IV); 'ultramarines' in 21 CFR 73.2725 (from memory)."""
    entry = standard().additions["ultramarine-blue"]
    assert is_pigment(entry) and not is_pigment(standard().additions["turmeric"])
    found = pigments(entry, jurisdictions()[place])
    assert [(name.text, name.common) for name in found] == names


OWN = """\
oils: {hollins: {name: Hollins' oil, saponification-value: {value: 196 mg/g, range: [194 mg/g, 198 mg/g]}}}
liquids: {brew: {name: Hollins' brew, water: 95 %}}
additions: {mix: {name: Hollins' mix}, dust: {name: Hollins' dust, kind: clay}}
infusions: {red-olive: {carrier: olive, botanical: madder}}
"""


def test_of_no_known_name_the_kind_is_told(tmp_path: Path) -> None:
    """And a stock of infused oil is named by what it was steeped with."""
    shelf = read_book(Folder(write_book(tmp_path, {"pantry.yaml": OWN, "recipes/plain.md": PLAIN}))).pantry
    named = {
        kind: of(Part(kind, name, 1.0), shelf, jurisdictions()["eu"], "charged")
        for kind, name in (("oil", "hollins"), ("liquid", "brew"), ("addition", "mix"))
    }
    assert {kind: name.text for kind, name in named.items()} == {
        "oil": "Oil of no known name",
        "liquid": "Liquid of no known name",
        "addition": "Addition of no known name",
    }
    assert not any(name.known or name.listed for name in named.values())
    dust = of(Part("addition", "dust", 1.0), shelf, jurisdictions()["eu"], "charged")
    assert dust.text == "Clay of no known name"
    assert botanical("red-olive", shelf, jurisdictions()["eu"]).text == "Rubia Tinctorum Root Extract"


def test_a_pigment_of_several_numbers_is_named_by_each() -> None:
    """Brown iron oxide is red, yellow and black together: CI 77491, 77492 and 77499."""
    entry = standard().additions["iron-oxide-brown"]
    found = [name.text for name in pigments(entry, jurisdictions()["eu"])]
    assert found == ["CI 77491", "CI 77492", "CI 77499"]
