"""The maker's own entries: laid over the tables, and like one another. Trade facts: common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import read_book
from saponary.pantry.model import Pantry
from saponary.pantry.standard import standard
from saponary.reading.files import Folder
from saponary.reading.findings import Finding
from support import write_book


def shelf(root: Path, text: str) -> tuple[Pantry, list[Finding]]:
    book = read_book(Folder(write_book(root, {"pantry.yaml": text, "recipes/none.txt": ""})))
    return book.pantry, [f for f in book.findings if f.place.file == "pantry.yaml"]


def test_an_oil_like_lard_is_lard_but_for_its_certificate(tmp_path: Path) -> None:
    pantry, found = shelf(
        tmp_path,
        "oils:\n  farm-lard:\n    like: lard\n    saponification-value: {value: 197 mg/g, range: [195 mg/g, 199 mg/g]}\n",
    )
    lard, own = standard().oils["lard"], pantry.oils["farm-lard"]
    assert found == []
    assert (own.saponification_value.value, own.saponification_value.low) == (197, 195)
    for field in (
        "fatty_acids",
        "iodine_value",
        "inci",
        "inci_sodium_soap",
        "density",
        "kind",
        "origin",
        "latin",
    ):
        assert getattr(own, field) == getattr(lard, field), field
    assert own.source["saponification-value"].how == "maker" and own.source["fatty-acids"].how != "maker"


def test_every_group_has_its_like(tmp_path: Path) -> None:
    pantry, found = shelf(
        tmp_path,
        """\
liquids:
  donkey-milk: {like: goat-milk, name: Donkey's milk, inci: null, fat: 1.4 %}
additions:
  strong-vinegar: {like: vinegar, acid: {share: 7 %}}
colourants:
  own-madder: {like: madder, fresh: "#904060"}
fragrances:
  hill-lavender: {like: essential-oil-lavender, density: 0.88 g/ml}
""",
    )
    assert [f for f in found if f.severity == "error"] == []
    milk, goat = pantry.liquids["donkey-milk"], standard().liquids["goat-milk"]
    assert (milk.fat, milk.sugar, milk.fat_value) == (0.014, goat.sugar, goat.fat_value)
    assert (milk.allergens, milk.hazards, milk.inci) == (goat.allergens, goat.hazards, goat.inci)
    vinegar = pantry.additions["strong-vinegar"]
    assert vinegar.acid == pytest.approx(0.07 / 60.052) and vinegar.inci_sodium_salt == "Sodium Acetate"
    madder = pantry.additions["own-madder"]
    assert madder.colour is not None and madder.colour.fresh == "#904060"
    assert madder.stage == "lye" and madder.colour.cured == "#b9786d"
    lavender = pantry.additions["hill-lavender"]
    assert (lavender.kind, lavender.displaces, lavender.latin) == (
        "fragrance",
        0.88,
        "Lavandula angustifolia",
    )


def test_like_goes_through_the_makers_own_and_leaves_the_price(tmp_path: Path) -> None:
    pantry, found = shelf(
        tmp_path,
        "oils:\n  lard: {price: 3 / kg, density: 0.9 g/ml}\n  farm-lard: {like: lard}\n  old-lard: {like: farm-lard}\n",
    )
    assert found == []
    assert pantry.oils["old-lard"].density == 0.9 and pantry.oils["lard"].price_per_kg == 3
    assert pantry.oils["farm-lard"].price_per_kg is None and pantry.oils["old-lard"].price_per_kg is None


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("oils:\n  farm-lard: {like: lad}\n", "'lad' is not in the pantry", "did you mean 'lard'?"),
        ("oils:\n  farm-lard: {like: farm-lard}\n", "comes back to itself", "another"),
        ("liquids:\n  a: {like: b}\n  b: {like: a}\n", "'a' comes back to itself", "another"),
        ("additions:\n  sour: {acid: {of: kaolin}}\n", "'kaolin' is not an acid", "acids"),
        ("additions:\n  sour: {acid: {share: 5 %}}\n", "the acid is not told", "citric-acid"),
        ("liquids:\n  m: {water: 90 %, allergens: [mlk]}\n", "'mlk'", "did you mean 'milk'?"),
        ("liquids:\n  m: {water: 90 %, hazards: [heats]}\n", "'heats'", "did you mean 'heat'?"),
    ],
)
def test_what_cannot_be_is_a_finding_with_its_place(
    tmp_path: Path, text: str, message: str, hint: str
) -> None:
    _, found = shelf(tmp_path, text)
    assert any(message in f.message and hint in f.hint and f.place.line for f in found), found


def test_an_acid_by_another_acid_of_stated_strength(tmp_path: Path) -> None:
    """Lemon juice at 5 % of citric acid (handbook, from memory): 3 mol of hydroxide in 192.124 g of acid."""
    pantry, _ = shelf(tmp_path, "liquids:\n  lemon: {water: 91 %, acid: {of: citric-acid, share: 5 %}}\n")
    lemon = pantry.liquids["lemon"]
    assert lemon.acid == pytest.approx(0.05 * 3 / 192.124, rel=1e-8)
    assert lemon.inci_sodium_salt == "Sodium Citrate"


def test_a_maker_may_state_all_that_a_table_states(tmp_path: Path) -> None:
    """Every table, as the pantry of a maker: nothing is refused, and every value is the same."""
    folder = Path(__file__).parents[2] / "generator/saponary/tables"
    tables = "\n".join(
        (folder / f"{name}.yaml").read_text(encoding="utf-8")
        for name in ("oils", "liquids", "additions", "colourants")
    )
    pantry, found = shelf(tmp_path, tables)
    assert found == []
    base = standard()
    assert {k: v.saponification_value for k, v in pantry.oils.items()} == {
        k: v.saponification_value for k, v in base.oils.items()
    }
    for name, entry in base.additions.items():
        assert (pantry.additions[name].acid, pantry.additions[name].colour) == (entry.acid, entry.colour), (
            name
        )


def test_unknown_facts_are_told(tmp_path: Path) -> None:
    pantry, _ = shelf(
        tmp_path, "oils:\n  rowan: {saponification-value: {value: 190 mg/g, range: [188 mg/g, 192 mg/g]}}\n"
    )
    assert set(pantry.oils["rowan"].unknown) == {
        "inci", "density", "fatty-acids", "iodine-value", "inci-sodium-soap", "inci-potassium-soap",
    }  # fmt: skip
    assert standard().oils["olive"].unknown == ()
