"""Cautions by id, and their words in the catalogue. The choice of cautions is common practice, no source."""

from __future__ import annotations

from saponary.messages.speaker import speaker
from saponary.views import cautions
from saponary.views.cautions import LYE, Caution
from support import PLAIN, proof_of, prove_one

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
            "stated:",
            "additions:\n  - {what: coffee-grounds, amount: 10 g}\n  - {what: kaolin, amount: 10 g}\nstated:",
        )
    ).recipes
    assert [caution.id for caution in cautions.for_recipe(made.computed)] == ["dust", "scratch"]
    assert [caution.id for caution in cautions.for_buyers(made.computed)] == ["scratch"]


def test_the_emergency_line_of_the_book_goes_first() -> None:
    assert SAY(cautions.emergency(" Ring 000. ")) == "Ring 000."
    assert "poison centre" in SAY(cautions.emergency(""))
