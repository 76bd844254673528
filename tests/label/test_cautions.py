"""Cautions by id, and their words in the catalogue. The choice of cautions is common practice, no source."""

from __future__ import annotations

from pathlib import Path

from saponary.build.proof import prove
from saponary.label import cautions
from saponary.label.cautions import LYE, Caution
from saponary.messages.speaker import speaker
from support import PLAIN, proof_of, prove_one, write_book

SAY = speaker().say


def of(slug: str, book: str = "starters", *, making: bool = True) -> list[str]:
    recipe = next(made for made in proof_of(book).recipes if made.computed.slug == slug)
    return [caution.id for caution in cautions.for_recipe(recipe.computed, making=making)]


def test_every_caution_has_its_words() -> None:
    known = {
        key.split(".")[1] for key in speaker().texts if key.startswith("caution.") and key.endswith(".head")
    }
    for name in known:
        assert SAY(Caution(name).head) and SAY(Caution(name).text).endswith(".")
    assert {caution.id for caution in LYE} < known


def test_milk_at_trace_warns_of_heat_gas_and_milk() -> None:
    assert of("milk-at-trace") == ["heat", "carbon-monoxide", "milk"]
    assert of("milk-at-trace", making=False) == ["milk"]


def test_two_alkalis_are_told_apart_first() -> None:
    assert of("brush-bowl-two-alkalis")[0] == "potassium-beside-sodium"


def test_a_label_tells_what_its_holder_must_know() -> None:
    (made,) = prove_one(
        PLAIN.replace(
            "signed:",
            "additions:\n  - {what: coffee-grounds, amount: 10 g}\n  - {what: kaolin, amount: 10 g}\nsigned:",
        )
    ).recipes
    assert [caution.id for caution in cautions.for_recipe(made.computed)] == ["dust", "scratch"]
    assert [caution.id for caution in cautions.for_buyers(made.computed)] == ["scratch"]


def test_an_oil_is_warned_of_for_what_it_is_pressed_from() -> None:
    """Almonds are tree nuts by annex II of Regulation (EU) 1169/2011 (from memory)."""
    (made,) = prove_one(PLAIN.replace("olive: 60 %", "sweet-almond: 60 %")).recipes
    assert [caution.id for caution in cautions.for_recipe(made.computed)] == ["tree-nut"]
    assert [caution.id for caution in cautions.for_buyers(made.computed)] == ["tree-nut"]


def test_the_emergency_line_of_the_book_goes_first() -> None:
    assert SAY(cautions.emergency(" Ring 000. ")) == "Ring 000."
    assert SAY(cautions.emergency("112")).startswith("In an emergency call 112 and say that it is a lye burn")
    assert "call +44 (0) 20-7946" in SAY(cautions.emergency(" +44 (0) 20-7946 "))
    assert "poison centre" in SAY(cautions.emergency(""))


def test_own_milk_and_own_soy_drink_are_warned_of_as_the_tables_are(tmp_path: Path) -> None:
    """By what they state, or by what they are like; the id is the maker's own."""
    pantry = """\
liquids:
  donkey-milk: {like: goat-milk, name: Donkey's milk}
  mare-milk: {water: 89 %, fat: 1.3 %, sugar: 6.4 %, allergens: [milk], hazards: [heat, carbon-monoxide]}
  bean-drink: {like: soy-drink}
"""
    recipe = PLAIN.replace("signed:", "liquids:\n  - {what: LIQUID, amount: 50 g, at: trace}\nsigned:")
    liquids = ("goat-milk", "donkey-milk", "mare-milk", "soy-drink", "bean-drink")
    files = {f"recipes/{name}.md": recipe.replace("LIQUID", name) for name in liquids}
    proof = prove(write_book(tmp_path, {"pantry.yaml": pantry, **files}))
    said = {
        made.computed.slug: [caution.id for caution in cautions.for_recipe(made.computed)]
        for made in proof.recipes
    }
    assert (
        said["donkey-milk"] == said["mare-milk"] == said["goat-milk"] == ["heat", "carbon-monoxide", "milk"]
    )
    assert said["bean-drink"] == said["soy-drink"] == ["heat", "soy"]
