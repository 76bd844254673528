"""What a label says of a recipe."""

from __future__ import annotations

import pytest

from saponary.label.fit import LabelText
from saponary.label.label_text import label_text, net_weight
from saponary.label.lists import bar
from saponary.messages.speaker import speaker
from saponary.schema.selling import PlaceOfSale
from saponary.schema.settings import Settings
from support import PLAIN, prove_one


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (100, "Net weight 100 g · 3.5 oz"),
        (99.99, "Net weight 99 g · 3.5 oz"),
        (113.398, "Net weight 113 g · 3.9 oz"),
        (113.4, "Net weight 113 g · 4.0 oz"),
        (8.26, "Net weight 8.2 g · 0.2 oz"),
        (500, "Net weight 500 g · 17.6 oz (1 lb 1.6 oz)"),
    ],
)
def test_net_weight_is_rounded_down_in_both_units(grams: float, text: str) -> None:
    said = speaker().say(net_weight(grams))
    assert said.replace("\u00a0", " ") == text
    assert "\u00a0g" in said and "\u00a0oz" in said, "no line ends between a number and its unit"


def said(text: str, settings: Settings) -> LabelText | None:
    computed = prove_one(text).recipes[0].computed
    return label_text(computed, bar(computed), settings, "eu")


@pytest.mark.parametrize(
    ("settings", "maker"),
    [
        (Settings(title="A Book"), "A Book"),
        (Settings(title="A Book", maker="Somebody"), "Somebody"),
        (Settings(title="A Book", maker="Somebody", place="Somewhere"), "Somebody, Somewhere"),
    ],
)
def test_all_of_it(settings: Settings, maker: str) -> None:
    text = PLAIN.replace(
        "signed:\n",
        "label: {net-weight: 100 g}\nadditions: [{what: oatmeal-ground, amount: 10 g}]\nsigned:\n",
    ).replace("Plain Bar", "Plain {superfat} Bar")
    made = said(text, settings)
    assert made is not None
    assert (made.name, made.kind) == ("Plain 5.0 % Bar", "soap")
    assert made.net_weight.replace("\u00a0", " ") == "Net weight 100 g · 3.5 oz"
    assert (made.lot, made.maker) == ("Lot", maker)
    assert made.ingredients.startswith("Ingredients: ") and made.ingredients.endswith(".")
    assert made.caution.startswith("Keep out of eyes.")


@pytest.mark.parametrize(
    ("law", "before"),
    [("eu", "Best used before the end of"), ("gb", "Best used before the end of"), ("us", "")],
)
def test_the_date_of_durability_stands_where_the_law_asks_for_it(law: PlaceOfSale, before: str) -> None:
    """Article 19(1)(c) of Regulation (EC) 1223/2009, kept in Great Britain (second-hand)."""
    computed = (
        prove_one(PLAIN.replace("signed:\n", "label: {net-weight: 100 g}\nsigned:\n")).recipes[0].computed
    )
    settings = Settings.model_validate({"title": "A Book", "durability-months": "24"})
    made = label_text(computed, bar(computed), settings, law)
    assert made is not None and (made.before, made.facts) == (before, "")
    plain = label_text(computed, bar(computed), Settings(title="A Book"), law)
    assert plain is not None and plain.before == ""


def test_no_net_weight_no_label() -> None:
    assert said(PLAIN, Settings(title="A Book")) is None
    assert said(PLAIN.replace("signed:\n", "label: {}\nsigned:\n"), Settings(title="A Book")) is None


@pytest.mark.parametrize(
    ("method", "kind"), [("hot", "soap"), ("cream", "cream soap"), ("liquid", "liquid soap")]
)
def test_a_label_says_what_the_method_makes(method: str, kind: str) -> None:
    alkali = "" if method == "hot" else "lye: {potassium: {share: 100 %, purity: 90 %}}\n"
    label = said(
        PLAIN.replace("signed:", f"method: {method}\n{alkali}label: {{net-weight: 90 g}}\nsigned:"),
        Settings(title="A"),
    )
    assert label is not None and label.kind == kind
