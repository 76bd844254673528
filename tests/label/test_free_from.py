"""What a bar is free from is told only where every ingredient says where it comes from.

Which plants are grains or palms is general botany, from memory: oats and maize are grasses, the oil palm is Elaeis.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.label.free_from import free_from
from saponary.label.holds import holds
from saponary.label.lists import Bar, bar
from support import PLAIN, write_book

ADDED = "superfat: 5 %\nadditions:\n  - {{what: {}, amount: 10 g}}\n"
UNSAID = "additions:\n  moss: {name: Moss}\n"


def of(tmp_path: Path, recipe: str, pantry: str = "") -> Bar:
    files = {"recipes/plain.md": recipe} | ({"pantry.yaml": pantry} if pantry else {})
    (one,) = prove(write_book(tmp_path, files)).recipes
    return bar(one.computed)


def adding(what: str) -> str:
    return PLAIN.replace("superfat: 5 %\n", ADDED.format(what), 1)


def test_plants_by_their_latin_names_are_free_of_what_others_are(tmp_path: Path) -> None:
    assert free_from(of(tmp_path, PLAIN)) == ("animal-fat", "palm-oil", "grain", "scent")


@pytest.mark.parametrize(
    ("oil", "lost"),
    [("tallow", "animal-fat"), ("palm", "palm-oil"), ("maize", "grain"), ("rice-bran", "grain")],
)
def test_an_oil_takes_away_what_it_is(tmp_path: Path, oil: str, lost: str) -> None:
    free = free_from(of(tmp_path, PLAIN.replace("coconut", oil)))
    assert lost not in free and len(free) == 3


@pytest.mark.parametrize(
    ("what", "free"),
    [
        ("kaolin", ("animal-fat", "palm-oil", "grain", "scent")),
        ("oatmeal-ground", ("animal-fat", "palm-oil", "scent")),
        ("essential-oil-lavender", ("animal-fat", "palm-oil", "grain")),
        ("honey", ("animal-fat", "palm-oil", "grain", "scent")),
        ("ready-made-soap", ("scent",)),
    ],
)
def test_so_does_an_addition(tmp_path: Path, what: str, free: tuple[str, ...]) -> None:
    assert free_from(of(tmp_path, adding(what))) == free


def test_what_does_not_say_where_it_comes_from_is_never_free(tmp_path: Path) -> None:
    assert free_from(of(tmp_path, adding("moss"), UNSAID)) == ("scent",)


@pytest.mark.parametrize(
    "said", ["origin: plant, latin: Polytrichum commune", "free-from: [animal-fat, palm-oil, grain]"]
)
def test_the_maker_may_say_it(tmp_path: Path, said: str) -> None:
    pantry = UNSAID.replace("Moss", f"Moss, {said}")
    assert free_from(of(tmp_path, adding("moss"), pantry)) == ("animal-fat", "palm-oil", "grain", "scent")


def test_an_allergen_is_told_with_what_brings_it(tmp_path: Path) -> None:
    found = holds(of(tmp_path, adding("oatmeal-ground")))
    assert found.known and found.allergens == (("gluten", ("Oatmeal, ground",)),)


def test_what_only_the_maker_knows_of_may_hold_anything(tmp_path: Path) -> None:
    assert not holds(of(tmp_path, adding("moss"), UNSAID)).known
    said = UNSAID.replace("Moss", "Moss, allergens: []")
    assert holds(of(tmp_path, adding("moss"), said)).known
    assert not holds(of(tmp_path, adding("essential-oil-lavender"))).known
