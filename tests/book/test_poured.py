"""A lot is recomputed from its own weights, worked here by plain arithmetic from its record and the values used.

Molar masses by IUPAC atomic weights; the tables' saponification values are not under test.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.poured import Behind, Recount, recount, recount_of
from saponary.book.rows import name_of, to_weigh
from saponary.lye.formula import Alkali
from saponary.pantry.model import Infusion
from saponary.pantry.standard import standard
from saponary.schema.batch import Batch
from saponary.schema.settings import Settings
from support import PLAIN, prove_one

KOH, NAOH = 56.1056, 39.9971
SHELF = standard()
NETTLE = replace(SHELF, infusions={"nettle-olive": Infusion("nettle-olive", "nettle-leaf", "olive")})
INFUSED = PLAIN.replace("    olive: 60 %\n", "    olive: 50 %\n    nettle-olive: 10 %\n")
POTS = PLAIN.replace(
    "superfat: 5 %\n",
    "superfat: 5 %\npots: separate\nportions:\n  - {name: a, share: 1/2}\n"
    "  - {name: b, share: 1/2, infused: {olive: calendula}}\n",
)


def lot(weights: Mapping[str, float | None], formula: str | None) -> Batch:
    written = {name: None if grams is None else f"{grams:.7f} g" for name, grams in weights.items()}
    record: dict[str, object] = {"lot": "A1", "poured": "2026-03-02", "as-weighed": written}
    return Batch.model_validate(record if formula is None else {**record, "formula": formula})


def plain(text: str = PLAIN) -> Computed:
    book = Book(Path("/nowhere"), Settings(), NETTLE, [], frozenset(), {}, [])
    return prove_one(text, book).recipes[0].computed


def found(weights: Mapping[str, float | None], formula: str | None, one: Computed | None = None) -> Recount:
    one = replace(one or plain(), pantry=NETTLE)
    told = recount_of(lot(weights, one.fingerprint if formula == "this" else formula), one)
    assert told is not None
    return told


def by_hand(oils: Mapping[str, float], sodium: float) -> float:
    takes = sum(g * SHELF.oils[name].saponification_value.value for name, g in oils.items()) / 1000 / KOH
    return 1 - sodium / NAOH / takes


def test_what_this_formula_has_and_the_record_leaves_out_is_assumed() -> None:
    told = found({"olive": 612.0, "coconut": 250.0, "sodium-hydroxide": 141.5}, "this")
    oils = {"olive": 612.0, "coconut": 250.0, "sunflower-high-oleic": 150.0}
    assert told.superfat == pytest.approx(by_hand(oils, 141.5), abs=1e-6)
    assert told.known and told.assumed == ("sunflower-high-oleic",)


def test_all_that_this_formula_weighs_gives_its_own_superfat() -> None:
    for one in (plain(), plain(INFUSED), plain(POTS)):
        weights = to_weigh(one.resolved.formula, one.figures, one.pantry)
        told = found(weights, "this", one)
        assert told.superfat == pytest.approx(one.figures.superfat, abs=1e-6) and told.assumed == ()


def test_weights_that_are_whole_need_no_formula() -> None:
    weights = {"lard": 900.0, "castor": 100.0, "sodium-hydroxide": 150.0, "water": 300.0}
    told = found(weights, "0123456789ab")
    assert told.superfat == pytest.approx(by_hand({"lard": 900.0, "castor": 100.0}, 150.0), abs=1e-6)
    assert told.known and told.caustic


@pytest.mark.parametrize(
    ("weights", "lacking"),
    [
        ({"olive": 600.0}, ("sodium-hydroxide",)),
        ({"sodium-hydroxide": 140.0}, ("oils",)),
        ({"olive": 600.0, "coconut": None, "sodium-hydroxide": 90.0}, ("coconut",)),
        ({"olive": 600.0, "citric-acid": None, "sodium-hydroxide": 90.0}, ("citric-acid",)),
        ({"olive": 600.0, "water": None, "blue-clay": None, "sodium-hydroxide": 70.0}, ()),
    ],
)
def test_of_a_lost_formula_only_what_bears_on_the_superfat_must_be_recorded(
    weights: Mapping[str, float | None], lacking: tuple[str, ...]
) -> None:
    told = found(weights, "0123456789ab")
    assert told.lacking == lacking and (told.superfat is None) == bool(lacking)


def test_a_lost_formula_may_have_held_both_alkalis_as_today() -> None:
    both = PLAIN.replace(
        "superfat: 5 %\n",
        "superfat: 5 %\nlye: {sodium: {share: 60 %}, potassium: {share: 40 %, purity: 90 %}}\n",
    )
    told = found({"olive": 600.0, "sodium-hydroxide": 40.0}, "0123456789ab", plain(both))
    assert told.lacking == ("potassium-hydroxide",) and told.superfat is None


def test_a_record_without_a_formula_is_held_to_todays_and_is_not_certain() -> None:
    told = found({"sodium-hydroxide": 160.0}, None)
    assert told.caustic and not told.known
    assert told.lacking == ("olive", "coconut", "sunflower-high-oleic")


def test_an_infused_oil_is_recorded_by_its_row_and_is_its_carrier() -> None:
    one = plain(INFUSED)
    weights = to_weigh(one.resolved.formula, one.figures, one.pantry)
    assert weights["nettle-olive"] == pytest.approx(100.0) and weights["olive"] == pytest.approx(500.0)
    told = found({**weights, "nettle-olive": 150.0}, "this", one)
    oils = {"olive": 650.0, "coconut": 250.0, "sunflower-high-oleic": 150.0}
    assert told.superfat == pytest.approx(by_hand(oils, weights["sodium-hydroxide"]), abs=1e-6)
    alone = found({"nettle-olive": 700.0, "sodium-hydroxide": 90.0}, "0123456789ab", one)
    assert alone.superfat == pytest.approx(by_hand({"olive": 700.0}, 90.0), abs=1e-6)


def test_a_carrier_stands_for_its_infused_rows_where_those_are_not_recorded() -> None:
    one = plain(INFUSED)
    told = found({"olive": 600.0}, "this", one)
    assert told.superfat == pytest.approx(one.figures.superfat, abs=1e-6)
    assert "nettle-olive" not in told.assumed


def test_an_oil_infused_for_one_pot_has_a_name_of_its_own() -> None:
    one = plain(POTS)
    assert {name_of(oil, one.pantry) for oil in one.resolved.formula.oils} >= {"olive", "calendula-olive"}


def test_names_that_stand_for_nothing_are_strange() -> None:
    assert found({"olives": 600.0, "sodium-hydroxide": 136.0}, "this").strange == ("olives",)
    lost = found({"olives": 600.0, "olive": 500.0, "sodium-hydroxide": 60.0}, "0123456789ab")
    assert lost.strange == ("olives",) and lost.superfat is None


def test_nothing_recorded_tells_nothing() -> None:
    assert recount_of(lot({}, None), plain()) is None
    assert recount_of(lot({"olive": None, "sodium-hydroxide": None}, None), plain()) is None


def test_random_records_agree_with_plain_arithmetic_whatever_the_formula() -> None:
    """Oils, acids and ash of the standard pantry, both alkalis, weights spread over four decades."""
    dice = random.Random(20261126)
    oils = sorted(name for name, oil in SHELF.oils.items())
    takers = sorted(name for name, a in SHELF.additions.items() if (a.acid or a.base) and a.stage != "pour")
    assert len(oils) > 50 and len(takers) > 2
    caustic = 0
    for _ in range(400):
        put = {name: 10 ** dice.uniform(0, 4) for name in dice.sample(oils, dice.randint(1, 8))}
        extra = {name: 10 ** dice.uniform(-1, 2) for name in dice.sample(takers, dice.randint(0, 2))}
        demand = sum(g * SHELF.oils[name].saponification_value.value for name, g in put.items()) / 1000 / KOH
        sodium, potassium = (demand * dice.uniform(0.2, 0.8) * molar for molar in (NAOH, KOH))
        pure = Alkali(0.5, 0.5, dice.uniform(0.9, 1.0), dice.uniform(0.85, 1.0))
        weights = {**put, **extra, "sodium-hydroxide": sodium, "potassium-hydroxide": potassium}
        told = recount(lot(weights, "0123456789ab"), SHELF, Behind(None, None, pure))
        moles = sodium * pure.sodium_purity / NAOH + potassium * pure.potassium_purity / KOH
        moles += sum(g * (SHELF.additions[n].base - SHELF.additions[n].acid) for n, g in extra.items())
        assert told is not None and told.known
        assert told.superfat == pytest.approx(1 - moles / demand, rel=1e-5, abs=1e-6)
        caustic += told.caustic
    assert 50 < caustic < 350
