"""A new recipe: what stands in it reads clean, and so does what stands in it as comments."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from saponary.book.library import read_recipe
from saponary.build.begin import Asked, begin
from saponary.build.new import fresh, in_units, made_from
from saponary.build.proof import prove
from saponary.reading.files import Folder
from saponary.schema.fields import kebab
from saponary.schema.recipe import Recipe
from support import BOOKS, write_book

PANTRY = "moulds: {loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}}\n"
LEFT_TO_OTHERS = {"signed", "batches", "waive", "dilute", "soap", "container", "rest"}
LEFT_OUT = {"photo", "sizes"}
"""Comments that need a photograph, or that a mould of one's own makes idle."""


def rules(root: Path) -> set[str]:
    return {finding.rule for finding in prove(root).findings}


@pytest.mark.parametrize("units", ["g", "oz"])
def test_it_reads_clean(units: str, tmp_path: Path) -> None:
    assert rules(write_book(tmp_path, {"recipes/a.md": fresh("A bar: first", units)})) == {"draft"}


def test_it_has_every_key_that_is_not_written_by_a_command() -> None:
    text = fresh("A bar")
    for name in map(kebab, Recipe.model_fields):
        assert bool(re.search(rf"^(# )?{name}:", text, re.MULTILINE)) == (name not in LEFT_TO_OTHERS)


@pytest.mark.parametrize(
    "name", sorted({kebab(name) for name in Recipe.model_fields} - LEFT_TO_OTHERS - LEFT_OUT)
)
def test_a_comment_taken_out_reads_clean(name: str, tmp_path: Path) -> None:
    text = fresh("A bar")
    wanted = ("portions", "pour", "mould", "pots") if name in ("pour", "cut", "pots") else (name,)
    for one in wanted if name != "cut" else ("mould", "cut"):
        text = re.sub(
            rf"^# ({one}:.*(?:\n# [ -].*)*)", lambda m: m[1].replace("\n# ", "\n"), text, flags=re.MULTILINE
        )
    files = {"recipes/a.md": text, "pantry.yaml": PANTRY}
    allowed = {"draft", *({"net-weight"} if name == "label" else ())}
    assert rules(write_book(tmp_path, files)) <= allowed


@pytest.mark.parametrize("slug", ["two-clay-bar", "brush-bowl-two-alkalis", "salt-bar"])
def test_one_made_from_another_has_its_formula_and_none_of_its_signature(slug: str, tmp_path: Path) -> None:
    other = read_recipe(Folder(BOOKS["starters"]), f"{slug}.md")
    text = made_from(other, "Another bar")
    root = write_book(tmp_path, {"recipes/a.md": text, f"recipes/{slug}.md": other.text})
    proof = prove(root)
    assert not proof.failed
    made = {one.computed.file.slug: one.computed for one in proof.recipes}
    assert made["a"].fingerprint == made[slug].fingerprint
    assert made["a"].model.signed == {} and made["a"].model.title == "Another bar"


def test_a_book_begins_as_it_was_told(tmp_path: Path) -> None:
    begin(tmp_path / "b", Asked("oz", ("gb",), "en-GB", "0.1 g", "", 'Ines "H"'))
    proof = prove(tmp_path / "b")
    told = proof.book.settings
    assert (told.units, told.language, told.emergency, told.maker) == ("oz", "en-GB", "999", 'Ines "H"')
    assert list(told.sold_in) == ["gb"] and not proof.failed
    assert {finding.rule for finding in proof.findings} == {"draft"}


@pytest.mark.parametrize(
    ("metric", "ounces"),
    [
        ("amount: 100 g, at", "amount: 3.5 oz, at"),
        ("amount: 10 g/kg", "amount: 0.16 oz/lb"),
        ("cut: 25 mm", "cut: 1 in"),
        ("pounds of 2 lb", "pounds of 2 lb"),
        ("42 days, 25 mg/g", "42 days, 25 mg/g"),
    ],
)
def test_examples_of_a_book_in_ounces(metric: str, ounces: str) -> None:
    """An ounce is 28.349523125 g and an inch 25.4 mm (NIST Handbook 44); 10 g/kg are 0.16 oz in 16 oz."""
    assert in_units(metric, "oz") == ounces
    assert in_units(metric, "g") == metric


def test_a_new_recipe_in_ounces_has_no_gram_in_its_examples() -> None:
    assert not re.search(r"\d (g|g/kg|mm)\b", fresh("A bar", "oz"))
