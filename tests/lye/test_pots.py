"""Which portions share a pot, and what the scale sees of one: once for the pot, not for each portion."""

from __future__ import annotations

import pytest

from saponary.lye.figures import weigh
from saponary.lye.formula import Alkali, Formula, Oil, Portion, Water, scaled
from saponary.lye.pots import oils_of, portions_by_pot, together


def oil(name: str, grams: float, soaked: str | None = None) -> Oil:
    return Oil(name, grams, 190.0, 190.0, 190.0, infused_with=soaked)


def batch(*portions: Portion, separate: bool = True, step: float = 1.0) -> Formula:
    oils = together(o for p in portions for o in p.oils or ()) or (oil("olive", 1000.0),)
    return Formula(oils, Alkali(), 0.05, Water("of-oils", 0.33), (), (), portions, separate, step)


COMMON = oil("olive", 1001.2)
THREE = batch(
    Portion("pale", 0.3, scaled([COMMON], 0.3), shares_pot=True),
    Portion("green", 0.4, (oil("hemp", 400.0),)),
    Portion("dark", 0.3, scaled([COMMON], 0.3), shares_pot=True),
)


def names(formula: Formula) -> list[list[str]]:
    return [[portion.name for portion in pot] for pot in portions_by_pot(formula)]


def test_portions_without_oils_of_their_own_share_a_pot() -> None:
    assert names(THREE) == [["pale", "dark"], ["green"]]


def test_where_none_has_its_own_each_has_a_pot() -> None:
    assert names(batch(Portion("pale", 0.5), Portion("dark", 0.5))) == [["pale"], ["dark"]]


def test_there_are_no_pots_where_one_is_split() -> None:
    assert names(batch(Portion("pale", 0.5), Portion("dark", 0.5), separate=False)) == []
    assert names(batch()) == []


def test_a_portion_takes_its_share_where_it_has_no_oils_of_its_own() -> None:
    half = Portion("pale", 0.5)
    assert oils_of(half, batch(half, Portion("dark", 0.5))) == (oil("olive", 500.0),)
    assert oils_of(THREE.portions[1], THREE) == (oil("hemp", 400.0),)


def test_lines_of_one_oil_and_one_infusion_are_one() -> None:
    parts = [oil("olive", 1.0), oil("olive", 2.0, "madder"), oil("olive", 4.0), oil("hemp", 0.0)]
    assert together(parts) == (oil("olive", 5.0), oil("olive", 2.0, "madder"))


def test_a_shared_pot_is_weighed_once() -> None:
    """600.72 g of the common oil are 601 g on a scale of 1 g; two portions of 300.36 g would be 600 g.

    By hand: 1001 g of oils of 190 ask for 1001 x 0.190 / 56.1056 = 3.389857 mol; the lye weighed is
    0.95 x 1000.72 x 0.190 / 56.1056 = 3.219463 mol, 128.769 g, on the scale 129 g = 3.225234 mol.
    """
    assert weigh(THREE).superfat_as_weighed == pytest.approx(1.0 - 3.225234 / 3.389857, abs=5e-7)
