"""Three ways to say how much water, and where it comes from, by plain arithmetic."""

from __future__ import annotations

import pytest

from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water
from saponary.lye.water import as_convention, grams, sources, strength


@pytest.mark.parametrize(
    ("convention", "value", "water"),
    [("lye-strength", 0.34, 274.55), ("to-lye", 1.9, 268.73), ("of-oils", 0.27, 270.0)],
)
def test_one_formula_by_each_convention(convention: str, value: float, water: float) -> None:
    """Rapeseed 550, coconut 250, lard 200 g; sodium hydroxide 141.4348 g."""
    assert grams(Water(convention, value), 141.4348, 1000.0) == pytest.approx(water, abs=0.005)
    assert as_convention(convention, water, 141.4348, 1000.0) == pytest.approx(value, abs=5e-5)


@pytest.mark.parametrize("convention", ["lye-strength", "to-lye", "of-oils"])
def test_of_nothing_there_is_no_share(convention: str) -> None:
    assert as_convention(convention, 0.0, 0.0, 0.0) == 0.0


def test_water_comes_from_the_tap_and_from_liquids() -> None:
    milk, vinegar = Liquid("milk", 100.0, 0.87, stage="lye"), Liquid("vinegar", 50.0, 0.95, stage="trace")
    found = sources(300.0, [milk, vinegar], [])
    assert (found.total, found.liquids) == (300.0, 134.5)
    assert found.plain == pytest.approx(165.5)
    assert found.dissolving == pytest.approx(252.5)


def test_liquids_may_bring_too_much() -> None:
    assert sources(50.0, [Liquid("milk", 100.0, 0.87)], []).plain == pytest.approx(-37.0)


def test_a_strength_is_a_share_of_both() -> None:
    assert strength(50.0, 100.0) == pytest.approx(1 / 3)
    assert strength(50.0, -20.0) == 1.0
    assert strength(0.0, 100.0) == 0.0


def test_a_solution_among_the_additions_brings_its_water() -> None:
    """Vinegar 200 g at the lye: 190 g of water less from the tap, and as much to dissolve in."""
    vinegar = Addition("vinegar", 200.0, "lye", water=0.95)
    found = sources(300.0, [], [vinegar])
    assert (found.additions, found.brought) == (190.0, 190.0)
    assert found.plain == pytest.approx(110.0)
    assert found.dissolving == pytest.approx(300.0)


@pytest.mark.parametrize(("stage", "dissolving"), [("lye", 300.0), ("oils", 204.0), ("trace", 204.0)])
def test_what_goes_in_later_dissolves_no_alkali(stage: str, dissolving: float) -> None:
    assert sources(300.0, [], [Addition("gel", 100.0, stage, water=0.96)]).dissolving == pytest.approx(
        dissolving
    )


def test_what_goes_into_the_cooled_lye_dissolves_no_alkali() -> None:
    lactate = Addition("lactate", 100.0, "lye", water=0.4, cooled=True)
    found = sources(300.0, [], [lactate])
    assert (found.plain, found.dissolving) == (260.0, 260.0)


def test_what_is_set_in_at_the_pour_brings_no_water_to_the_batter() -> None:
    found = sources(300.0, [], [Addition("embeds", 100.0, "pour", water=0.1)])
    assert (found.plain, found.additions) == (300.0, 0.0)


@pytest.mark.parametrize("stage", ["lye", "oils", "trace"])
def test_vinegar_is_the_same_whichever_list_it_stands_in(stage: str) -> None:
    """As a liquid or as an addition: the same weights, the same strength, the same batter."""
    oils = (Oil("oil", 1000.0, 190.0, 186.0, 194.0),)
    acid = 0.05 / 60.052
    as_liquid = Formula(
        oils, Alkali(), 0.05, Water("lye-strength", 0.33), (Liquid("v", 200.0, 0.95, stage=stage, acid=acid),)
    )
    as_addition = Formula(
        oils,
        Alkali(),
        0.05,
        Water("lye-strength", 0.33),
        additions=(Addition("v", 200.0, stage, acid=acid, water=0.95, displaces=1.0),),
    )
    one, other = weigh(as_liquid), weigh(as_addition)
    assert one.weights == other.weights
    assert other.water.plain == pytest.approx(one.water.plain)
    assert other.lye_strength_dissolved == pytest.approx(one.lye_strength_dissolved)
    assert (other.batter, other.batter_ml) == pytest.approx((one.batter, one.batter_ml))
    assert other.fresh_water == pytest.approx(one.fresh_water)
