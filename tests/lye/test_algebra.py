"""What must hold of every formula whatever its numbers: linearity, conventions, alkalis, superfat, bands.

Each property follows from the definitions: superfat is the share of the oils' demand left unmet,
acids take their alkali in full, a water convention is a quotient of two weights. No publication is
under test here.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from saponary.lye import constants as c
from saponary.lye.figures import Figures, weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water
from saponary.lye.water import as_convention, grams

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=30)
EXACT = 1e-9
"""Relative: what is left of double precision after some dozens of operations."""

shares = st.floats(0.0, 1.0)


@st.composite
def oils(draw: st.DrawFn) -> tuple[Oil, ...]:
    made = []
    for i in range(draw(st.integers(1, 5))):
        value = draw(st.floats(90.0, 360.0))
        low, high = value - draw(st.floats(0.0, 15.0)), value + draw(st.floats(0.0, 15.0))
        made.append(
            Oil(
                f"oil-{i}",
                draw(st.floats(5.0, 3000.0)),
                value,
                low,
                high,
                ester=draw(st.sampled_from(["triglyceride", "acid", "wax"])),
                density=draw(st.sampled_from([None, 0.89, 0.93])),
            )
        )
    return tuple(made)


waters = st.one_of(
    st.builds(Water, st.just("lye-strength"), st.floats(0.2, 0.5)),
    st.builds(Water, st.just("to-lye"), st.floats(1.0, 4.0)),
    st.builds(Water, st.just("of-oils"), st.floats(0.15, 0.6)),
)
alkalis = st.builds(
    lambda sodium, *pure: Alkali(sodium, 1.0 - sodium, *pure),
    shares,
    st.floats(0.8, 1.0),
    st.floats(0.8, 1.0),
)
additions = st.lists(
    st.builds(
        Addition,
        st.sampled_from(["citric-acid", "kaolin", "vinegar"]),
        st.floats(0.0, 60.0),
        st.sampled_from(["lye", "oils", "trace"]),
        acid=st.floats(0.0, 0.02),
        water=shares,
        displaces=st.sampled_from([None, 1.6, 2.6]),
    ),
    max_size=3,
).map(tuple)
liquids = st.lists(
    st.builds(
        Liquid,
        st.sampled_from(["oat-drink", "goat-milk"]),
        st.floats(0.0, 80.0),
        shares,
        fat=st.floats(0.0, 0.3),
        stage=st.sampled_from(["lye", "trace"]),
        acid=st.floats(0.0, 0.001),
    ),
    max_size=2,
).map(tuple)
formulas = st.builds(
    Formula, oils(), alkalis, st.floats(0.0, 0.3), waters, liquids, additions, scale_step=st.just(1.0)
)

GRAMS = (
    "oils", "liquids", "liquids_fat", "additions", "placed_water", "batter", "batter_ml", "fresh_water",
)  # fmt: skip
QUOTIENTS = (
    "lye_strength", "lye_strength_dissolved", "water_to_lye", "water_of_oils", "superfat",
    "superfat_with_liquids_fat", "bands",
)  # fmt: skip


def scaled(formula: Formula, by: float) -> Formula:
    return replace(
        formula,
        oils=tuple(replace(oil, grams=oil.grams * by) for oil in formula.oils),
        liquids=tuple(replace(part, grams=part.grams * by) for part in formula.liquids),
        additions=tuple(replace(part, grams=part.grams * by) for part in formula.additions),
    )


def numbers(figures: Figures, names: tuple[str, ...]) -> list[float]:
    """The named figures, then those inside bands, one after the other."""
    out: list[float] = []
    for name in names:
        value = getattr(figures, name)
        if name == "bands":
            out += [value.likely.low, value.likely.high, value.worst.low, value.worst.high]
        else:
            out.append(value)
    return out


def plain_water_left(formula: Formula) -> bool:
    """The liquids bring no more water than the recipe has."""
    return weigh(formula).water.plain > 0


@REPEATABLE
@given(formulas, st.floats(0.01, 100.0))
def test_everything_is_linear_in_the_batch(formula: Formula, by: float) -> None:
    assume(plain_water_left(formula))
    assert formula.scaled(by) == scaled(formula, by)
    small, large = weigh(formula), weigh(scaled(formula, by))
    for name in ("sodium_hydroxide", "potassium_hydroxide", "total"):
        assert getattr(large.weights, name) == pytest.approx(by * getattr(small.weights, name), rel=EXACT)
    for name in ("total", "plain", "liquids", "dissolving"):
        # Plain water is a difference, so its last digits are those of the total.
        room = EXACT * by * small.water.total
        assert getattr(large.water, name) == pytest.approx(by * getattr(small.water, name), abs=room)
    for name in ("soap", "glycerol", "water_formed", "oil_left"):
        room = EXACT * by * small.oils
        assert getattr(large.balance, name) == pytest.approx(by * getattr(small.balance, name), abs=room)
    assert numbers(large, GRAMS) == pytest.approx([by * x for x in numbers(small, GRAMS)], rel=EXACT)
    assert numbers(large, QUOTIENTS) == pytest.approx(numbers(small, QUOTIENTS), rel=EXACT, abs=EXACT)
    assert large.chemistry.saponification_value == pytest.approx(
        small.chemistry.saponification_value, rel=EXACT
    )


@REPEATABLE
@given(waters, st.floats(1.0, 500.0), st.floats(10.0, 5000.0))
def test_water_conventions_there_and_back(water: Water, alkali: float, oil: float) -> None:
    total = grams(water, alkali, oil)
    for convention in ("lye-strength", "to-lye", "of-oils"):
        value = as_convention(convention, total, alkali, oil)
        assert grams(Water(convention, value), alkali, oil) == pytest.approx(total, rel=EXACT)
    assert as_convention(water.convention, total, alkali, oil) == pytest.approx(water.value, rel=EXACT)


@REPEATABLE
@given(formulas)
def test_the_figures_state_the_convention_given(formula: Formula) -> None:
    figures = weigh(formula)
    stated = {
        "lye-strength": figures.lye_strength,
        "to-lye": figures.water_to_lye,
        "of-oils": figures.water_of_oils,
    }
    assert stated[formula.water.convention] == pytest.approx(formula.water.value, rel=EXACT)
    assert figures.water_to_lye == pytest.approx((1 - figures.lye_strength) / figures.lye_strength, rel=EXACT)


@REPEATABLE
@given(formulas)
def test_one_alkali_or_the_other(formula: Formula) -> None:
    """NaOH alone and KOH alone differ by the molar masses and the purities, and by nothing else."""
    pure = (formula.alkali.sodium_purity, formula.alkali.potassium_purity)
    sodium = weigh(replace(formula, alkali=Alkali(1.0, 0.0, *pure))).weights
    potassium = weigh(replace(formula, alkali=Alkali(0.0, 1.0, *pure))).weights
    assert sodium.potassium_hydroxide == potassium.sodium_hydroxide == 0.0
    ratio = c.KOH / c.NAOH * pure[0] / pure[1]
    assert potassium.total == pytest.approx(sodium.total * ratio, rel=EXACT)
    both = weigh(formula).weights
    assert both.sodium_hydroxide == pytest.approx(formula.alkali.sodium * sodium.total, rel=EXACT)
    assert both.potassium_hydroxide == pytest.approx(formula.alkali.potassium * potassium.total, rel=EXACT)


@REPEATABLE
@given(formulas)
def test_superfat_worked_back_from_the_weights(formula: Formula) -> None:
    """Grams on the scale, back to moles, less the acids, over the demand: the superfat asked for."""
    weights = weigh(formula).weights
    moles = weights.sodium_hydroxide * formula.alkali.sodium_purity / (22.98977 + 15.9994 + 1.00794)
    moles += weights.potassium_hydroxide * formula.alkali.potassium_purity / (39.0983 + 15.9994 + 1.00794)
    for part in (*formula.additions, *formula.liquids):
        moles -= part.grams * part.acid
    demand = sum(oil.grams * oil.saponification_value for oil in formula.oils) / 56105.64
    acids = sum(part.grams * part.acid for part in (*formula.additions, *formula.liquids))
    room = EXACT * (1 + acids / demand)
    assert 1 - moles / demand == pytest.approx(formula.superfat, abs=room)
    assert weigh(formula).superfat == pytest.approx(formula.superfat, abs=room)


@REPEATABLE
@given(formulas, st.floats(0.001, 0.5))
def test_more_superfat_less_alkali(formula: Formula, more: float) -> None:
    before, after = weigh(formula), weigh(replace(formula, superfat=formula.superfat + more))
    assert after.weights.total < before.weights.total
    assert after.superfat > before.superfat
    assert after.superfat_with_liquids_fat > before.superfat_with_liquids_fat
    assert after.balance.oil_left > before.balance.oil_left
    assert after.bands.worst.low > before.bands.worst.low


@REPEATABLE
@given(formulas, st.floats(1.0, 50.0), st.floats(0.001, 0.02))
def test_an_acid_takes_its_alkali_and_leaves_the_superfat(
    formula: Formula, weight: float, acid: float
) -> None:
    sour = replace(formula, additions=(*formula.additions, Addition("sour", weight, acid=acid)))
    before, after = weigh(formula), weigh(sour)
    gained = after.weights.moles(formula.alkali) - before.weights.moles(formula.alkali)
    assert gained == pytest.approx(weight * acid, rel=1e-6)
    assert after.superfat == pytest.approx(before.superfat, abs=1e-8)


@REPEATABLE
@given(formulas, st.floats(1.0, 50.0), st.floats(0.0001, 0.002))
def test_free_alkali_lowers_the_superfat_and_no_weight(formula: Formula, weight: float, base: float) -> None:
    caustic = replace(formula, additions=(*formula.additions, Addition("ash-soap", weight, base=base)))
    before, after = weigh(formula), weigh(caustic)
    demand = sum(oil.grams * oil.saponification_value for oil in formula.oils) / 1000 / c.KOH
    assert after.weights == before.weights
    assert before.superfat - after.superfat == pytest.approx(weight * base / demand, rel=1e-6, abs=1e-12)


@REPEATABLE
@given(formulas, st.sampled_from([1.0, 0.5, 0.1, 0.01]))
def test_as_weighed_is_within_a_bound_of_the_step(formula: Formula, step: float) -> None:
    """Every weight is off by half a step at most; the bound is that, carried through the quotient.

    With demand d and alkali a in moles: |a'/d' - a/d| <= (|a' - a| + a/d |d' - d|) / d', and both
    differences are proportional to the step.
    """
    half = step / 2
    values = sum(oil.saponification_value for oil in formula.oils) / 1000 / c.KOH
    demand = sum(oil.grams * oil.saponification_value for oil in formula.oils) / 1000 / c.KOH
    assume(half * values < demand / 4)
    alkali = formula.alkali.sodium_purity / c.NAOH + formula.alkali.potassium_purity / c.KOH
    acids = sum(part.acid for part in (*formula.additions, *formula.liquids))
    figures = weigh(replace(formula, scale_step=step))
    bound = half * (alkali + acids + abs(1 - figures.superfat) * values) / (demand - half * values)
    assert abs(figures.superfat_as_weighed - figures.superfat) <= bound * (1 + 1e-6) + 1e-10


def test_as_weighed_rounds_oils_alkali_and_acids_and_nothing_else() -> None:
    """By hand: oils 333.4 and 166.6 g to 333 and 167, citric acid 10.4 to 10, vinegar 20.5 to 21, NaOH to
    the gram."""
    oils = (Oil("soft", 333.4, 190.0, 190.0, 190.0), Oil("lauric", 166.6, 257.0, 257.0, 257.0))
    sour = (Addition("citric-acid", 10.4, acid=3 / 192.124), Addition("kaolin", 7.7))
    vinegar = (Liquid("vinegar", 20.5, 0.95, acid=0.05 / 60.052),)
    figures = weigh(Formula(oils, Alkali(), 0.05, Water("to-lye", 2.0), vinegar, sour, scale_step=1.0))
    assert figures.weights.total == pytest.approx(79.0758, abs=5e-4)
    available = 79 / 39.9971 - 10 * 3 / 192.124 - 21 * 0.05 / 60.052
    expected = 1 - available / ((333 * 190 + 167 * 257) / 56105.64)
    assert figures.superfat_as_weighed == pytest.approx(expected, abs=1e-6)
    assert abs(figures.superfat_as_weighed - figures.superfat) > 1e-4


@REPEATABLE
@given(formulas)
def test_as_weighed_tends_to_nominal(formula: Formula) -> None:
    """On a scale of a hundred-thousandth of a gram nothing is left of the difference."""
    fine = weigh(replace(formula, scale_step=1e-5))
    assert fine.superfat_as_weighed == pytest.approx(fine.superfat, abs=1e-4)


@REPEATABLE
@given(formulas)
def test_bands_inside_one_another(formula: Formula) -> None:
    """Root of the sum of squares is never more than the sum: likely inside worst, nominal inside both."""
    figures = weigh(formula)
    likely, worst = figures.bands.likely, figures.bands.worst
    assert worst.low <= likely.low + EXACT
    assert likely.low <= figures.superfat + EXACT
    assert figures.superfat <= likely.high + EXACT
    assert likely.high <= worst.high + EXACT


@REPEATABLE
@given(formulas)
def test_worst_band_is_the_superfat_of_oils_at_their_ends(formula: Formula) -> None:
    """The same weights of alkali, given to oils that all lie at the low, or the high, end of their ranges."""
    figures = weigh(formula)
    available = (1 - figures.superfat) * sum(o.grams * o.saponification_value for o in formula.oils)
    for end, got in (("low", figures.bands.worst.low), ("high", figures.bands.worst.high)):
        asked = sum(oil.grams * getattr(oil, end) for oil in formula.oils)
        assert got == pytest.approx(1 - available / asked, abs=1e-8)


def test_likely_meets_worst_for_a_single_oil_and_narrows_with_many() -> None:
    """n oils alike and independent: the reach is that of one over the root of n."""
    for count in (1, 4, 9):
        oils = tuple(Oil(f"oil-{i}", 900.0 / count, 190.0, 184.0, 196.0) for i in range(count))
        likely = weigh(Formula(oils, Alkali(), 0.05, Water("to-lye", 2.0))).bands.likely
        assert likely.low == pytest.approx(1 - 0.95 * 190 / (190 - 6 / count**0.5), abs=1e-12)
        assert likely.high == pytest.approx(1 - 0.95 * 190 / (190 + 6 / count**0.5), abs=1e-12)


@REPEATABLE
@given(formulas)
def test_matter_is_neither_made_nor_lost(formula: Formula) -> None:
    """Soap, glycerol, water formed and oil left weigh what the oils and the alkali they took weighed,
    each from its own definition: acids first, the others alike, ash's own alkali with the rest."""
    ash = Addition("ash-soap", 30.0, base=0.001)
    figures, a = weigh(replace(formula, additions=(*formula.additions, ash))), formula.alkali
    moles = [(o, o.grams * o.saponification_value / 1000 / c.KOH) for o in formula.oils]
    asked = sum(n for _, n in moles)
    acids = sum(n for o, n in moles if o.ester == "acid")
    taken = min((1 - formula.superfat) * asked + 0.03, asked)
    by_acids = min(acids, taken)
    met = (taken - by_acids) / (asked - acids) if asked > acids else 0.0
    glycerol = sum(n for o, n in moles if o.ester == "triglyceride") / 3 * met * c.GLYCEROL
    left = sum(o.grams * (1 - (by_acids / acids if o.ester == "acid" else met)) for o, _ in moles)
    weighed = figures.weights.moles(a)
    molar = (weighed * (a.sodium * c.NAOH + a.potassium * c.KOH) + 0.03 * c.KOH) / (weighed + 0.03)
    balance, room = figures.balance, EXACT * max(figures.oils, 1.0)
    assert balance.glycerol == pytest.approx(glycerol, abs=room)
    assert balance.water_formed == pytest.approx(by_acids * c.WATER, abs=room)
    assert balance.oil_left == pytest.approx(left, abs=room)
    alkali = taken * molar
    whole = balance.soap + balance.glycerol + balance.water_formed + balance.oil_left
    assert whole == pytest.approx(figures.oils + alkali, abs=room)


@REPEATABLE
@given(oils(), st.integers(0, 4))
def test_one_oil_in_two_lines_is_one_oil(blend: tuple[Oil, ...], index: int) -> None:
    """An oil of which half stood on petals is the same oil twice: no figure of the lye may tell."""
    oil = blend[index % len(blend)]
    halves = (replace(oil, grams=oil.grams / 2), replace(oil, grams=oil.grams / 2, infused_with="calendula"))
    twice = tuple(part for other in blend for part in (halves if other is oil else (other,)))
    one = weigh(Formula(blend, Alkali(), 0.05, Water("lye-strength", 0.33)))
    two = weigh(Formula(twice, Alkali(), 0.05, Water("lye-strength", 0.33)))
    assert two.weights.total == pytest.approx(one.weights.total, rel=EXACT)
    assert numbers(two, ("bands",)) == pytest.approx(numbers(one, ("bands",)), abs=EXACT)


def test_liquids_that_bring_too_much_water_still_weigh() -> None:
    """A liquid whose water is the recipe's and the alkali's weight besides: nothing is left to divide by."""
    oil = Oil("oil", 301.0, 190.0, 186.0, 194.0)
    formula = Formula((oil,), Alkali(), 0.05, Water("to-lye", 2.0))
    alkali = weigh(formula).weights.total
    flooded = weigh(replace(formula, liquids=(Liquid("drink", 3 * alkali, 1.0),)))
    assert flooded.water.plain == pytest.approx(-alkali)
