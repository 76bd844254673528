"""What a label says beside its list, by place, and what its maker is to mind before it goes on."""

from __future__ import annotations

import pytest

from saponary.label.beside_list import facts, minds, responsible
from saponary.label.lists import Bar, bar
from saponary.messages.speaker import speaker
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.settings import Settings
from support import PLAIN, prove_one

SAY = speaker().say
SETTINGS = Settings.model_validate(
    {"title": "A Book", "function": "Soap for the body", "after-opening-months": "12"}
)
SOLD = ForSale.model_validate({"origin": "Elbonia", "contact": "hand@example.org"})


def made_of(*additions: str) -> Bar:
    listed = ", ".join(f"{{what: {name}, amount: 3 g}}" for name in additions)
    text = PLAIN.replace("signed:\n", f"additions: [{listed}]\nsigned:\n")
    return bar(prove_one(text).recipes[0].computed)


@pytest.mark.parametrize(
    ("law", "said"),
    [
        ("eu", ["Soap for the body", "Once opened, good for 12 months.", "Made in Elbonia."]),
        ("gb", ["Soap for the body", "Once opened, good for 12 months.", "Made in Elbonia."]),
        ("us", ["Soap for the body", "To report a reaction: hand@example.org."]),
    ],
)
def test_facts_by_place(law: PlaceOfSale, said: list[str]) -> None:
    """A period and an origin by Article 19 of Regulation (EC) 1223/2009, a contact by the act of 2022 (second-hand)."""
    assert [SAY(fact) for fact in facts(SETTINGS, SOLD, law)] == said


def test_of_what_is_not_stated_nothing_is_said() -> None:
    for law in ("eu", "gb", "us"):
        assert list(facts(Settings(title="A Book"), ForSale(), law)) == []


def test_who_answers_for_it() -> None:
    named = ForSale.model_validate({"responsible": {"name": "A. Nobody", "address": "1 No Street"}})
    assert SAY(responsible(SETTINGS, named)) == "A. Nobody, 1 No Street"
    assert responsible(SETTINGS, ForSale()) == "A Book"
    assert responsible(Settings(title="A Book", maker="B", place="C"), ForSale()) == "B, C"


COLOURED = ("turmeric", "indigo", "kaolin", "salt", "ultramarine-blue")


@pytest.mark.parametrize(
    ("settings", "law", "said"),
    [
        (SETTINGS, "eu", ["Put the sign of an open jar beside the period after opening"]),
        (SETTINGS, "us", ["place of sale: Turmeric, Indigo. Check the colour law"]),
        (Settings(title="A Book"), "eu", []),
        (Settings(title="A Book"), "us", ["place of sale: Turmeric, Indigo. Check"]),
    ],
)
def test_what_its_maker_is_to_mind(settings: Settings, law: PlaceOfSale, said: list[str]) -> None:
    """Neither turmeric nor indigo is among the colours of 21 CFR 73, subpart C; ultramarines are (73.2725)."""
    found = [SAY(each) for each in minds(made_of(*COLOURED), settings, law)]
    assert len(found) == len(said)
    assert all(part in whole for part, whole in zip(said, found, strict=True))
