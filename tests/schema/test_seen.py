"""Who may see a field: every field says it, and what is not allowed is not copied."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, get_args

import pytest

from saponary.book.classes import ClassPlan
from saponary.pantry.standard import standard
from saponary.schema.edition import STANDARD
from saponary.schema.fields import Part, ShortText
from saponary.schema.pantry import PantryFile
from saponary.schema.recipe import Recipe
from saponary.schema.seen import EVERYWHERE, Once, Private, Public, Seen, marks, only_seen
from saponary.schema.settings import Settings


def inside(kind: Any) -> Iterator[type[Part]]:
    """The models that an annotation names, however deep."""
    if isinstance(kind, type) and issubclass(kind, Part):
        yield kind
        for field in kind.model_fields.values():
            yield from inside(field.annotation)
    for one in get_args(kind):
        yield from inside(one)


MODELS = sorted(
    {m for top in (Recipe, Settings, ClassPlan, PantryFile) for m in inside(top)}, key=lambda m: m.__name__
)


@pytest.mark.parametrize("model", MODELS, ids=lambda m: m.__name__)
def test_every_field_says_who_may_see_it(model: type[Part]) -> None:
    assert set(model.model_fields) == set(marks(model))


@pytest.mark.parametrize("model", MODELS, ids=lambda m: m.__name__)
def test_a_field_that_must_be_written_is_seen_with_its_model(model: type[Part]) -> None:
    """Else what an edition is given would lack it altogether."""
    needed = {name for name, field in model.model_fields.items() if field.is_required()}
    hidden = {name for name in needed if not marks(model)[name].within(EVERYWHERE)}
    assert hidden <= {"shows"}


GUARDED: dict[tuple[str, ...], set[str]] = {
    (): {
        "AdditionEntry.like", "AdditionEntry.note", "AdditionEntry.source", "AdditionEntry.supplier",
        "Batch.editions", "Batch.mould", "CertificateEntry.from_", "CertifiedValue.from_",
        "ClassPlan.editions", "EditionEntry.formula", "EditionEntry.reader", "EditionEntry.shows", "FragranceEntry.blend",
        "FragranceEntry.like", "FragranceEntry.note", "FragranceEntry.source",
        "FragranceEntry.supplier", "InfusionEntry.days", "InfusionEntry.made", "InfusionEntry.ratio",
        "LiquidEntry.like", "LiquidEntry.note", "LiquidEntry.source", "LiquidEntry.supplier",
        "OilEntry.like", "OilEntry.note", "OilEntry.source", "OilEntry.supplier", "Recipe.batches",
        "Recipe.editions", "ScrapEntry.lot", "Settings.build", "Settings.editions", "Settings.press",
    },
    ("batches",): {
        "Batch.as_weighed", "Batch.bars", "Batch.cut", "Batch.faults", "Batch.free_alkali", "Batch.gel",
        "Batch.humidity", "Batch.lye_stock", "Batch.lye_temperature", "Batch.notes", "Batch.oils_temperature",
        "Batch.pot", "Batch.room_temperature", "Batch.trace", "Batch.unmoulded", "Batch.weighed", "Settings.free_alkali_limit",
    },
    ("costs",): {
        "AdditionEntry.price", "FragranceEntry.price", "LiquidEntry.price", "OilEntry.price", "Settings.alkali_price",
    },
    ("full formula",): {
        "Recipe.sizes", "Recipe.signed",
    },
    ("full formula", "work"): {
        "Recipe.soap",
    },
    ("ingredients",): {
        "Recipe.label", "Settings.durability_months", "Settings.sold_in",
    },
    ("people",): {
        "Batch.by", "Batch.oil_lots", "Batch.shelf", "Batch.store", "ClassPlan.packs", "ClassPlan.spare",
        "OilEntry.lots",
    },
    ("photos",): {
        "Batch.photos", "Recipe.photo",
    },
    ("private",): {
        "Batch.private", "ForSale.contact", "ForSale.origin", "ForSale.responsible", "Recipe.private",
        "Settings.after_opening_months", "Settings.function",
    },
    ("shop",): {
        "Recipe.shop", "Settings.shop",
    },
    ("costs", "shop"): {
        "Settings.currency",
    },
    ("summary",): {
        "Recipe.summary",
    },
    ("waivers",): {
        "ClassPlan.waive", "PantryFile.waive", "Recipe.waive", "Settings.waive",
    },
    ("work",): {
        "Addition.from_", "AdditionEntry.chips", "Portion.note", "Recipe.steps", "Recipe.temperatures", "Recipe.vessel",
        "Temperatures.lye", "Temperatures.oils", "Temperatures.cook",
    },
}  # fmt: skip
"""By what an edition must show, the fields that not every edition shows: by hand, so that none opens unseen."""


def test_no_field_is_opened_or_closed_by_mistake() -> None:
    found: dict[tuple[str, ...], set[str]] = {}
    for model in MODELS:
        for name, mark in marks(model).items():
            if not mark.within(EVERYWHERE):
                found.setdefault(tuple(sorted(mark.by)), set()).add(f"{model.__name__}.{name}")
    assert found == GUARDED


class Inner(Part):
    open: Public[ShortText] = ""
    work: Annotated[ShortText, Seen("work")] = ""


class Outer(Part):
    many: Public[list[Inner]] = []
    named: Annotated[dict[str, Inner], Seen("people", "work")] = {}
    never: Private[ShortText] = ""
    forgotten: ShortText = ""


def test_only_what_may_be_seen_is_copied() -> None:
    inner = {"open": "a", "work": "b"}
    whole = Outer.model_validate({"many": [inner], "named": {"x": inner}, "never": "c", "forgotten": "d"})
    shop, bench = (only_seen(whole, STANDARD[name].sight) for name in ("shop", "maker"))
    assert shop == Outer.model_validate({"many": [{"open": "a"}]})
    assert bench == Outer.model_validate({"many": [inner], "named": {"x": inner}})
    assert shop.model_fields_set == {"many"}


def test_what_several_maps_share_is_made_anew_once() -> None:
    shelf = standard()
    once: Once = {}
    one, other = (
        only_seen({"a": shelf.oils["olive"]}, EVERYWHERE, once),
        only_seen({"b": shelf.oils["olive"], "c": shelf.oils["coconut"]}, EVERYWHERE, once),
    )
    assert one["a"] is other["b"] and other["b"] is not other["c"]
    assert one["a"] == only_seen(shelf.oils["olive"], EVERYWHERE)
    assert other["c"] == only_seen(shelf.oils["coconut"], EVERYWHERE)
