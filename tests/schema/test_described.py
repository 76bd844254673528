"""What a key means stands below its field, and is read from there."""

from __future__ import annotations

import pytest

from saponary.schema.described import FIRST, Described, described, parsed
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.oil_entry import OilEntry
from saponary.schema.recipe import Recipe


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("What it is. Example: a: 1", Described("What it is.", "a: 1")),
        ("What\n    it is.\n    Example: a: 1\n    ", Described("What it is.", "a: 1")),
        ("It is.\n    Example:\n      a:\n      - b: 1\n    ", Described("It is.", "a:\n- b: 1")),
        ("It is. Since 0.3. Example: a: 1", Described("It is.", "a: 1", "0.3")),
        ("It is.", Described("It is.", "")),
    ],
)
def test_a_text_is_taken_apart(text: str, told: Described) -> None:
    assert parsed(text) == told


def test_a_model_has_the_texts_of_what_it_is_made_from() -> None:
    assert described(OilEntry)["name"] == described(IngredientEntry)["name"]
    assert described(OilEntry)["name"].since == FIRST


def test_the_json_schema_carries_them() -> None:
    superfat = Recipe.model_json_schema(by_alias=True)["properties"]["superfat"]
    text = described(Recipe)["superfat"]
    assert superfat["description"] == f"{text.meaning}\n\nExample:\n{text.example}"
    assert superfat["x-seen"] == ["always"]
