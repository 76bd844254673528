"""What each method shows: its stages in order, its cautions, days, words and sheets. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from saponary.book.cure_days import CureDays, cure_days
from saponary.book.published import Published
from saponary.label.cautions import for_recipe
from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import figures_object
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import show
from saponary.schema.batch import Batch
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.schema.methods import METHODS
from saponary.schema.settings import Settings
from saponary.views.cooked_lots import cook_facts
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.gallery import gallery_row, gallery_view
from saponary.views.panel import panel
from saponary.views.paper.record_fields import record_fields, sheet_fields
from saponary.views.prose import Prose
from saponary.views.scene import scene
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet
from saponary.views.work import work_order
from support import proof_of

STARTERS = {
    "cold": "one-oil-olive", "hot": "slow-cooker-oat", "cream": "lather-jar", "liquid": "sink-side-liquid",
    "rebatch": "second-melt",
}  # fmt: skip
SAY = speaker().say


@cache
def recipes() -> dict[str, Published]:
    proof = proof_of("starters")
    site = for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD[PUBLIC])
    return {recipe.slug: recipe for recipe in site.recipes}


def recipe(method: str) -> Published:
    return recipes()[STARTERS[method]]


def stages(method: str) -> dict[str, Stage]:
    one = recipe(method)
    order = work_order(WeighSheet(one, Scale(1.0, "g"), Prose(one.catalogue)))
    return {stage.id: stage for stage in order.stages}


def lines(stage: Stage) -> dict[str, str]:
    """The weights of a stage by the names of their figures."""
    return {line.id: SAY(line.main or "") for table in stage.tables for line in table.lines}


def test_every_method_has_a_starter() -> None:
    assert STARTERS.keys() == {method.name for method in METHODS}
    assert all(recipe(method).model.method == method for method in STARTERS)


@pytest.mark.parametrize(
    ("method", "order"),
    [
        ("cold", "before lye oils trace pour cover"),
        ("hot", "before lye oils trace cook after-cook pour dry"),
        ("cream", "before lye oils trace cook dilute rest fill"),
        ("liquid", "before lye oils trace cook dilute rest fill"),
        ("rebatch", "before grate melt after-cook pour dry"),
    ],
)
def test_the_stages_of_a_method_in_their_order(method: str, order: str) -> None:
    assert " ".join(stages(method)) == order


def test_a_soft_or_liquid_soap_is_not_told_to_go_into_a_mould() -> None:
    for method in ("cream", "liquid"):
        told = " ".join(
            SAY(s) for stage in stages(method).values() for s in (*stage.lead, *stage.order, *stage.close)
        )
        assert "mould" not in told.lower() and "bar" not in told.lower().split()
        assert "free alkali" in told


def test_what_goes_in_after_the_cook_is_weighed_there_and_nowhere_else() -> None:
    hot = stages("hot")
    assert lines(hot["after-cook"]) == {
        "after-cook shea-butter": "40", "liquid yoghurt": "30", "addition colloidal-oatmeal": "15",
    }  # fmt: skip
    others = {name for id, stage in hot.items() if id != "after-cook" for name in lines(stage)}
    assert not others & lines(hot["after-cook"]).keys()
    assert "7.2 %" in SAY(hot["after-cook"].close[0])


def test_the_water_that_thins_is_the_engines() -> None:
    """1433 g over 952 g of paste that holds 477 g of total fatty matter: 477/0.20 - 952 (ISO 685's term)."""
    found = recipe("liquid").catalogue["dilution-water"].value
    assert lines(stages("liquid")["dilute"]) == {"dilution-water": show(found, 0)}


def test_a_rebatch_says_that_no_lye_is_weighed_and_shows_no_nought_of_it() -> None:
    one, order = recipe("rebatch"), stages("rebatch")
    assert "No lye is weighed" in SAY(order["grate"].lead[0])
    assert lines(order["grate"]) == {"addition soap-of-olive-and-coconut": "600"}
    view = panel(one, Scale(1.0, "g"))
    assert view.band is None
    assert [(SAY(e.text), SAY(e.note)) for e in (*view.lye, *view.superfat)] == [
        ("none", "no lye is weighed here"), ("not given", "no lye is weighed here"),
    ]  # fmt: skip
    assert not [name for name in one.catalogue if "lye" in name or "superfat" in name or "hydroxide" in name]


@pytest.mark.parametrize(
    ("method", "first"),
    [
        ("hot", ["hot-pot"]),
        ("cream", ["hot-pot", "keeping"]),
        ("liquid", ["hot-pot", "keeping", "potassium"]),
        ("rebatch", ["rebatch-alkali", "hot-soap"]),
    ],
)
def test_the_cautions_of_a_method_come_first_and_go_with_the_making(method: str, first: list[str]) -> None:
    found = [caution.id for caution in for_recipe(recipe(method))]
    assert found[: len(first)] == first
    after = {caution.id for caution in for_recipe(recipe(method), making=False)}
    assert "carbon-monoxide" not in found or method != "rebatch"
    assert not after & {"hot-pot", "keeping", "rebatch-alkali", "hot-soap"}


@pytest.mark.parametrize(
    ("method", "days"),
    [
        ("cold", CureDays(28, 28, True, "cure")),
        ("hot", CureDays(7, 28, True, "drying")),
        ("cream", CureDays(14, 14, False, "rest")),
        ("liquid", CureDays(7, 7, False, "rest")),
        ("rebatch", CureDays(7, 28, True, "drying")),
    ],
)
def test_days_by_method(method: str, days: CureDays) -> None:
    assert cure_days(recipe(method).model, Settings(cure=28)) == days


def test_a_recipe_of_its_own_rest_goes_by_it() -> None:
    model = recipe("liquid").model.model_copy(update={"rest": 21})
    assert cure_days(model, Settings(cure=28)) == CureDays(21, 21, False, "rest")


def test_each_method_is_drawn_in_what_it_is_filled_into() -> None:
    drawn = {method: scene(recipe(method), lambda slug: None) for method in STARTERS}
    assert {m: (s.vessel, s.top) for m, s in drawn.items()} == {
        "cold": ("mould", "flat"), "hot": ("mould", "rough"), "cream": ("jar", "flat"), "liquid": ("bottle", "flat"),
        "rebatch": ("mould", "rough"),
    }  # fmt: skip
    filled = recipe("liquid").resolved.containers
    assert filled is not None and drawn["liquid"].level == filled.full


def test_a_lots_two_weighings_of_the_pot_tell_what_boiled_off_and_the_bar_that_comes_of_it() -> None:
    one = recipe("hot")
    fields = {
        "lot": "A",
        "poured": "2026-10-01",
        "formula": one.fingerprint,
        "pot": {"before": "3120 g", "after": "3034 g"},
    }
    batch = Batch.model_validate(fields)
    assert "86.0 g" in " ".join(SAY(text) for _, text in cook_facts(batch, one))
    cut = replace(one, resolved=replace(one.resolved, bars=10))
    told = {SAY(label): SAY(text) for label, text in cook_facts(batch, cut)}
    assert told["Bar from the mould"].startswith("152.1 g")
    earlier = batch.model_copy(update={"formula": "0123456789ab"})
    assert len(list(cook_facts(earlier, cut))) == 1, "of another formula only what was written is told"


def test_a_sheet_and_a_handout_ask_for_what_the_method_has() -> None:
    asked = {m.name: [SAY(field) for row in record_fields(m, "g").rows for field in row] for m in METHODS}
    on_sheet = {m.name: [SAY(blank.before) for blank in sheet_fields(m, "g")] for m in METHODS}
    assert "Pot before the cook, g" in asked["hot"] and "Pot before the cook, g" not in asked["cold"]
    assert not [field for field in asked["rebatch"] if "Lye" in field or "Trace" in field]
    assert "Cut on" not in asked["liquid"] and "Filled on" in on_sheet["liquid"]
    assert {"Lye at", "Cut on", "Marked bar fresh"} <= set(on_sheet["cold"])
    assert all("Free alkali tested on" in fields for fields in on_sheet.values())


def test_recipes_may_be_chosen_by_method() -> None:
    proof = proof_of("starters")
    site = for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD[PUBLIC])
    rows = [gallery_row(one, site) for one in site.recipes]
    (choice,) = (c for c in gallery_view(site, rows, frozenset()).choices if c.name == "method")
    assert {option.mark for option in choice.options} == {f"method-{method}" for method in STARTERS}


def test_no_figure_of_lye_goes_to_programs_where_none_is_weighed() -> None:
    melted, cold = (figures_object(recipe(method).figures) for method in ("rebatch", "cold"))
    assert melted["lye_weighed"] is False and cold["lye_weighed"] is True
    assert melted.keys() < cold.keys() and melted["batter_g"] == recipe("rebatch").figures.batter
    assert not [
        key for key in melted if "hydroxide" in key or "superfat" in key or "oil" in key or "strength" in key
    ]
