"""What the batter becomes: acids first, then the other oils alike, and all of it by mass."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.bar import balance, chemistry, met
from saponary.lye.contents import as_charged, as_found
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Oil, Water

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=100)
OLIVE = Oil("olive", 900.0, 190.0, 186.0, 194.0)
STEARIC = Oil("stearic-acid", 100.0, 200.0, 195.0, 212.0, ester="acid")


def test_free_acids_are_neutralised_before_any_ester_is_split() -> None:
    """Demand 171 + 20 g of KOH; 5 % of 191 is 9.55 g, all of it left of the olive: 9.55/171 = 5.585 %."""
    part = met((OLIVE, STEARIC), 0.05)
    assert part.acids == 1.0
    assert 1.0 - part.others == pytest.approx(0.05585, abs=5e-6)
    made = weigh(Formula((OLIVE, STEARIC), Alkali(), 0.05, Water("of-oils", 0.3)))
    assert made.balance.oil_left == pytest.approx(900 * 0.0558480, abs=1e-3)
    # All of the acid gives water: 20 g of KOH are 0.356471 mol, 6.4219 g of water.
    assert made.balance.water_formed == pytest.approx(6.4219, abs=1e-3)


def test_where_the_alkali_does_not_reach_for_the_acids_no_ester_is_split() -> None:
    """90 % superfat of 191 g of KOH leaves 19.1 g for 20 g: 95.5 % of the acid."""
    part = met((OLIVE, STEARIC), 0.9)
    assert (part.acids, part.others) == (pytest.approx(0.955), 0.0)
    assert met((), 0.05).acids == 0.0


def test_none_of_a_free_acid_is_left_over_in_the_bar() -> None:
    made = Formula((OLIVE, STEARIC), Alkali(), 0.05, Water("of-oils", 0.3))
    left = {part.id: part.grams for part in as_found(made, weigh(made)) if part.kind == "oil"}
    assert left == {"olive": pytest.approx(50.263, abs=1e-3)}


def test_a_superfat_below_nought_splits_all() -> None:
    assert met((OLIVE, STEARIC), -0.05) == met((OLIVE, STEARIC), 0.0)
    assert balance((OLIVE,), -0.05, 0.0).oil_left == 0.0


def test_free_alkali_of_a_ready_made_soap_makes_soap_too() -> None:
    """60 g with 0.002 mol/g of potassium hydroxide: 0.12 mol, 6.7327 g, which the oil takes up."""
    soap = Addition("ready-made-soap", 60.0, base=0.002)
    made = Formula((OLIVE,), Alkali(), 0.05, Water("of-oils", 0.3), additions=(soap,))
    figures = weigh(made)
    asked = 171 / 56.1056
    assert figures.superfat == pytest.approx(0.05 - 0.12 / asked, abs=1e-7)
    found = {(p.kind, p.id, p.metal): p.grams for p in as_found(made, figures)}
    assert found["addition", "ready-made-soap", None] == pytest.approx(60.0 - 0.12 * 56.1056, abs=1e-4)
    assert found["oil", "olive", None] == pytest.approx(900 * figures.superfat)
    potassium = 0.12 / (0.95 * asked + 0.12)
    soaps = found["soap", "olive", "sodium"], found["soap", "olive", "potassium"]
    acids = soaps[0] - (0.95 * asked) * 39.9971, soaps[1] - 0.12 * 56.1056
    assert acids[1] / sum(acids) == pytest.approx(potassium, rel=1e-5)
    assert figures.balance.soap == pytest.approx(sum(soaps))


parts = st.lists(
    st.builds(
        lambda i, grams, value, ester: Oil(f"oil-{i}", grams, value, value, value, ester=ester),
        st.integers(0, 9),
        st.floats(0.0, 2000.0),
        st.floats(10.0, 300.0),
        st.sampled_from(["triglyceride", "acid", "wax"]),
    ),
    min_size=1,
    max_size=6,
).map(tuple)
extras = st.lists(
    st.builds(
        Addition,
        st.sampled_from(["salt", "ash", "acid"]),
        st.floats(0.0, 200.0),
        st.sampled_from(["lye", "oils", "trace", "pour"]),
        acid=st.sampled_from([0.0, 0.01]),
        base=st.sampled_from([0.0, 0.0011]),
        base_of=st.sampled_from(["sodium", "potassium"]),
        water=st.sampled_from([0.0, 0.3]),
    ),
    max_size=4,
).map(tuple)


@REPEATABLE
@given(parts, extras, st.floats(-0.1, 1.0), st.floats(0.0, 1.0))
def test_what_went_in_is_there(
    oils: tuple[Oil, ...], additions: tuple[Addition, ...], superfat: float, sodium: float
) -> None:
    made = Formula(
        oils, Alkali(sodium, 1 - sodium, 0.98, 0.9), superfat, Water("of-oils", 0.3), additions=additions
    )
    figures = weigh(made)
    found, charged = as_found(made, figures), as_charged(made, figures)
    whole = figures.loaf
    assert sum(p.grams for p in found) == pytest.approx(whole, rel=1e-9, abs=1e-9)
    assert sum(p.grams for p in charged) == pytest.approx(whole, rel=1e-9, abs=1e-9)
    for kind, grams in (
        ("soap", figures.balance.soap),
        ("glycerol", figures.balance.glycerol),
        ("oil", figures.balance.oil_left),
    ):
        assert sum(p.grams for p in found if p.kind == kind) == pytest.approx(grams, rel=1e-9, abs=1e-6)


def test_water_of_what_is_set_in_is_in_the_fresh_bar() -> None:
    """50 g of embeds with a tenth of water, beside 270 g in the batter."""
    embeds = Addition("embeds", 50.0, "pour", water=0.1)
    made = Formula((OLIVE,), Alkali(), 0.05, Water("of-oils", 0.3), additions=(embeds,))
    assert weigh(made).fresh_water == pytest.approx(275.0)


def test_the_chemistry_of_a_blend_is_weighted_by_mass() -> None:
    """300 g of 190 mg/g, 82 g of iodine in 100 g, its acids told as 0.4 and 0.4; 100 g of 250 and 10, told as
    0.5 and 0.4; 100 g of 100 and 6 whose acids nobody told.

    Saponification value (57 + 25 + 10)/500 g; iodine (246 + 10 + 6)/5. Acids: 300·(1/2, 1/2), 100·(5/9, 4/9).
    """
    blend = chemistry(
        (
            Oil("a", 300.0, 190.0, 190.0, 190.0, 82.0, {"C18:1": 0.4, "C18:2": 0.4}),
            Oil("b", 100.0, 250.0, 250.0, 250.0, 10.0, {"C12:0": 0.5, "C18:1": 0.4}),
            Oil("c", 100.0, 100.0, 100.0, 100.0, 6.0),
        )
    )
    assert blend.saponification_value == pytest.approx(184.0)
    assert blend.iodine_value == pytest.approx(52.4)
    assert blend.covered == pytest.approx(0.8)
    assert blend.fatty_acids == {
        "C12:0": pytest.approx(500 / 9 / 400),
        "C18:1": pytest.approx((150 + 400 / 9) / 400),
        "C18:2": pytest.approx(150 / 400),
    }
    assert list(blend.fatty_acids) == ["C12:0", "C18:1", "C18:2"]


def test_one_oil_of_unknown_iodine_value_leaves_the_blend_without_one() -> None:
    told, untold = OLIVE, Oil("b", 0.0, 250.0, 250.0, 250.0)
    known = Oil("a", 100.0, 190.0, 190.0, 190.0, 82.0)
    assert chemistry((known, untold)).iodine_value == pytest.approx(82.0)
    assert chemistry((known, told)).iodine_value is None
    assert chemistry(()).iodine_value is None
