"""A key or a name that nothing knows is never passed over in silence, wherever it stands."""

from __future__ import annotations

import types
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Union, get_args, get_origin

import pytest

from saponary.book.classes import ClassPlan
from saponary.build.proof import prove
from saponary.outputs.pdfs import KINDS
from saponary.schema.batch import Batch
from saponary.schema.fields import Part
from saponary.schema.pantry import PantryFile
from saponary.schema.recipe import Recipe
from saponary.schema.settings import PdfName, Settings
from saponary.words.reader import OwnFile
from support import PLAIN, write_book

FILES = (Recipe, Batch, Settings, PantryFile, ClassPlan, OwnFile)

NAMED_FREELY = {
    "Batch.bars": "a marked bar has whatever name its maker gives it",
    "FragranceEntry.composition": "a scent's parts are named by the ingredient list, allergen or not",
    "OilEntry.lots": "a lot of an oil has its supplier's name",
    "PantryFile.additions": "an ingredient of the maker's own",
    "PantryFile.colourants": "an ingredient of the maker's own",
    "PantryFile.fragrances": "an ingredient of the maker's own",
    "PantryFile.infusions": "an ingredient of the maker's own",
    "PantryFile.liquids": "an ingredient of the maker's own",
    "PantryFile.moulds": "a mould of the maker's own",
    "PantryFile.oils": "an ingredient of the maker's own",
    "PantryFile.scraps": "an ingredient of the maker's own",
    "Settings.editions": "an edition of the maker's own",
    "Settings.label_sheets": "a grid of the maker's own",
}
"""Maps whose keys are new names, and why."""

_BATCH = "batches:\n  - lot: A\n    poured: 2026-03-02\n    {}\nsigned:"
_CLASS = (
    "---\ntitle: T\nstudents: 2\nper-bench: 2\nrecipes: [{}]\noils: 300 g\npacks: {{{}: 1 kg}}\n---\nHi.\n"
)


def recipe(line: str) -> dict[str, str]:
    return {"recipes/plain.md": PLAIN.replace("signed:", f"{line}\nsigned:")}


def batch(line: str) -> dict[str, str]:
    return {"recipes/plain.md": PLAIN.replace("signed:", _BATCH.format(line)), "photos/a.jpg": ""}


OF_NAMES: dict[str, dict[str, str]] = {
    "Batch.as_weighed": batch("as-weighed: {strange: 3 g}"),
    "Batch.oil_lots": batch("oil-lots: {strange: L3}"),
    "PhotoRef.colours": batch('photos: [{file: a.jpg, day: 3, colours: {strange: "#aabbcc"}}]'),
    "Oils.parts": {"recipes/plain.md": PLAIN.replace("olive:", "strange:")},
    "Oils.after_cook": {
        "recipes/plain.md": PLAIN.replace(
            "superfat:", "  after-cook: {strange: 4 % of oils}\nmethod: hot\nsuperfat:", 1
        )
    },
    "PortionOils.parts": recipe(
        "pots: separate\nportions: [{name: a, share: 1/2}, {name: b, share: 1/2, oils: {parts: {strange: 100 %}}}]"
    ),
    "Portion.infused": recipe(
        "pots: separate\nportions: [{name: a, share: 1/2}, {name: b, share: 1/2, infused: {strange: alkanet}}]"
    ),
    "Recipe.signed": {"recipes/plain.md": PLAIN.replace("  superfat: 5.0 %\n", "  strange: 5.0 %\n")},
    "Settings.sold_in": {"book.yaml": "sold-in: {strange: {origin: x}}\n"},
    "Settings.build": {"book.yaml": "build: [strange]\n"},
    "Settings.press": {"book.yaml": "press: [strange]\n"},
    "ClassPlan.packs": {"classes/a.md": _CLASS.format("plain", "strange")},
    "ClassPlan.recipes": {"classes/a.md": _CLASS.format("strange", "olive")},
    "OilEntry.fatty_acids": {"pantry.yaml": "oils: {mine: {like: lard, fatty-acids: {strange: 4 %}}}\n"},
    "IngredientEntry.source": {
        "pantry.yaml": "oils: {mine: {like: lard, source: {strange: {how: memory}}}}\n"
    },
    "IngredientEntry.law": {"pantry.yaml": "oils: {mine: {like: lard, law: {strange: fine}}}\n"},
    "FragranceEntry.blend": {"pantry.yaml": "fragrances: {mine: {blend: {strange: 100 %}}}\n"},
}
"""Of each map or list whose keys or words are names of things: a book in which one of them is strange."""


def _parts(kind: Any) -> Iterator[type[Part]]:
    if isinstance(kind, type) and issubclass(kind, Part):
        yield kind
    for inner in get_args(kind):
        yield from _parts(inner)


def models() -> list[type[Part]]:
    """Every model that a file may hold a map of."""
    found: list[type[Part]] = []
    waiting: list[type[Part]] = [model for model in FILES if issubclass(model, Part)]
    while waiting:
        model = waiting.pop()
        if model in found:
            continue
        found.append(model)
        for info in model.model_fields.values():
            waiting += _parts(info.annotation)
    return found


def maps() -> set[str]:
    """Every field that is a map of names of any kind, as Class.field, under the class that declares it."""
    found: set[str] = set()
    for model in models():
        for name, info in model.model_fields.items():
            if _has_named_keys(info.annotation):
                owner = next(
                    base for base in reversed(model.__mro__) if name in getattr(base, "__annotations__", {})
                )
                found.add(f"{owner.__name__}.{name}")
    return found


def _has_named_keys(kind: Any) -> bool:
    if get_origin(kind) is dict:
        return not _is_typed(get_args(kind)[0])
    inner = get_args(kind)
    return (
        any(_has_named_keys(one) for one in inner)
        if get_origin(kind) in (Union, types.UnionType) or inner
        else False
    )


def _is_typed(key: Any) -> bool:
    """A day, which is no name."""
    return "int" in repr(key)


@pytest.mark.parametrize("model", models(), ids=lambda model: model.__name__)
def test_a_map_of_keys_takes_no_unknown_key(model: type[Part]) -> None:
    assert model.model_config.get("extra") == "forbid"


def test_every_map_of_names_is_here() -> None:
    listed = {
        name for name in OF_NAMES if name not in ("Settings.build", "Settings.press", "ClassPlan.recipes")
    }
    assert maps() == listed | set(NAMED_FREELY)


@pytest.mark.parametrize("field", sorted(OF_NAMES))
def test_a_strange_name_is_an_error_that_says_what_is_known(field: str, tmp_path: Path) -> None:
    book = write_book(tmp_path, {"recipes/plain.md": PLAIN, **OF_NAMES[field]})
    told = [f for f in prove(book).findings if "strange" in f.message and f.severity == "error"]
    assert told and all(f.hint and f.place.line for f in told), [str(f) for f in prove(book).findings]


def test_the_kinds_of_pdf_that_a_book_may_name_are_those_there_are() -> None:
    assert set(get_args(PdfName)) == {kind.name for kind in KINDS}


def test_a_comma_in_braces_is_one_finding_that_says_so(tmp_path: Path) -> None:
    steps = "steps: [{at: trace, say: Goggles, gloves and aprons}]\nsuperfat:"
    book = write_book(tmp_path, {"recipes/plain.md": PLAIN.replace("superfat:", steps, 1)})
    (told,) = [f for f in prove(book).findings if "gloves" in f.message]
    assert "behind a comma" in told.message and told.hint is not None and "quotes" in told.hint


def test_a_key_given_twice_in_the_pantry_takes_no_mould_from_the_recipes(tmp_path: Path) -> None:
    twice = "moulds: {a: {cavities: {count: 8, volume: 200 ml}}}\nmoulds: {b: {cavities: {count: 8, volume: 200 ml}}}\n"
    recipe = PLAIN.replace("superfat:", "mould: b\nsuperfat:", 1)
    book = write_book(tmp_path, {"recipes/plain.md": recipe, "pantry.yaml": twice})
    assert [f.rule for f in prove(book).findings if f.severity == "error"] == ["reading"]
