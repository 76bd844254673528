"""The fingerprint: the same for the same chemistry at any size, another for any change of it."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.figures import weigh
from saponary.lye.fingerprint import LENGTH, fingerprint, matches
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Portion, Water

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=30)

FORMULA = Formula(
    oils=(
        Oil("olive", 450.0, 191.0, 184.0, 196.0, density=0.911),
        Oil("coconut", 250.0, 254.0, 248.0, 265.0),
        Oil("shea-butter", 250.0, 179.0, 160.0, 195.0, infused_with="calendula"),
        Oil("castor", 50.0, 181.0, 176.0, 187.0),
    ),
    alkali=Alkali(0.7, 0.3, 0.98, 0.9),
    superfat=0.05,
    water=Water("lye-strength", 0.33),
    liquids=(Liquid("oat-drink", 60.0, 0.9, fat=0.015),),
    additions=(
        Addition("citric-acid", 10.0, "lye", acid=0.0156),
        Addition("kaolin", 6.0, portion="chalk"),
        Addition("ash-soap", 12.0, base=0.0011),
    ),
    portions=(Portion("chalk", 0.4), Portion("slate", 0.6)),
)


@REPEATABLE
@given(st.floats(0.001, 1000.0))
def test_the_same_at_any_size(by: float) -> None:
    assert fingerprint(FORMULA.scaled(by)) == fingerprint(FORMULA)


@REPEATABLE
@given(st.lists(st.integers(1, 99), min_size=1, max_size=6), st.floats(30.0, 30000.0))
def test_the_same_at_any_size_for_shares_in_whole_parts(parts: list[int], total: float) -> None:
    def formula(grams: float) -> Formula:
        oils = tuple(
            Oil(f"oil-{i}", grams * part / sum(parts), 190.0 + i, 180.0, 210.0)
            for i, part in enumerate(parts)
        )
        return replace(FORMULA, oils=oils, liquids=(), additions=(), portions=())

    assert fingerprint(formula(total)) == fingerprint(formula(1000.0))


def test_the_same_at_any_size_where_a_share_ends_in_a_five() -> None:
    """7/128 is 0.0546875, half-way between two numbers of six decimals; one pound of oils or a
    kilogram is no matter."""

    def formula(grams: float) -> Formula:
        parts = (("olive", 7 / 128), ("coconut", 121 / 128))
        return replace(
            FORMULA,
            oils=tuple(Oil(name, grams * share, 190.0, 184.0, 196.0) for name, share in parts),
            liquids=(),
            additions=(),
        )

    assert fingerprint(formula(453.59237)) == fingerprint(formula(1000.0))


@REPEATABLE
@given(st.permutations(FORMULA.oils), st.permutations(FORMULA.additions))
def test_the_same_in_any_order(oils: list[Oil], additions: list[Addition]) -> None:
    other = replace(FORMULA, oils=tuple(oils), additions=tuple(additions))
    assert fingerprint(other) == fingerprint(FORMULA)


def _oil(index: int, **change: object) -> Formula:
    oils = list(FORMULA.oils)
    oils[index] = replace(oils[index], **change)
    return replace(FORMULA, oils=tuple(oils))


def _addition(index: int, **change: object) -> Formula:
    parts = list(FORMULA.additions)
    parts[index] = replace(parts[index], **change)
    return replace(FORMULA, additions=tuple(parts))


def _liquid(**change: object) -> Formula:
    return replace(FORMULA, liquids=(replace(FORMULA.liquids[0], **change),))


def _alkali(**change: float) -> Formula:
    return replace(FORMULA, alkali=replace(FORMULA.alkali, **change))


BY_ONE_PER_CENT: dict[str, Callable[[], Formula]] = {
    "the largest oil": lambda: _oil(0, grams=454.5),
    "the smallest oil": lambda: _oil(3, grams=50.5),
    "less of an oil": lambda: _oil(1, grams=247.5),
    "a saponification value": lambda: _oil(1, saponification_value=251.46),
    "superfat": lambda: replace(FORMULA, superfat=0.0505),
    "water": lambda: replace(FORMULA, water=Water("lye-strength", 0.3333)),
    "how the alkali is split": lambda: _alkali(sodium=0.693, potassium=0.307),
    "purity of sodium hydroxide": lambda: _alkali(sodium_purity=0.9702),
    "purity of potassium hydroxide": lambda: _alkali(potassium_purity=0.891),
    "an acid": lambda: _addition(0, grams=10.1),
    "strength of an acid": lambda: _addition(0, acid=0.015756),
    "a clay": lambda: _addition(1, grams=6.06),
    "a soap": lambda: _addition(2, grams=11.88),
    "the free alkali of a soap": lambda: _addition(2, base=0.001111),
    "a liquid": lambda: _liquid(grams=60.6),
    "the water in a liquid": lambda: _liquid(water=0.909),
    "share of a portion": lambda: replace(FORMULA, portions=(Portion("chalk", 0.404), Portion("slate",
    0.596))),
}  # fmt: skip

OF_KIND: dict[str, Callable[[], Formula]] = {
    "another oil": lambda: _oil(0, id="olive-pomace"),
    "another kind of ester": lambda: _oil(0, ester="acid"),
    "another infusion": lambda: _oil(2, infused_with="annatto"),
    "no infusion": lambda: _oil(2, infused_with=None),
    "another water convention": lambda: replace(FORMULA, water=Water("of-oils", 0.33)),
    "another stage": lambda: _addition(0, stage="trace"),
    "another portion": lambda: _addition(1, portion="slate"),
    "without an addition": lambda: replace(FORMULA, additions=FORMULA.additions[1:]),
    "without a liquid": lambda: replace(FORMULA, liquids=()),
    "pots apart": lambda: replace(FORMULA, separate_pots=True),
}


@pytest.mark.parametrize("what", BY_ONE_PER_CENT)
def test_another_after_a_change_of_one_per_cent(what: str) -> None:
    assert fingerprint(BY_ONE_PER_CENT[what]()) != fingerprint(FORMULA)


@pytest.mark.parametrize("what", OF_KIND)
def test_another_after_a_change_of_kind(what: str) -> None:
    assert fingerprint(OF_KIND[what]()) != fingerprint(FORMULA)


def test_all_of_these_differ_from_one_another() -> None:
    marks = [fingerprint(make()) for make in (*BY_ONE_PER_CENT.values(), *OF_KIND.values())]
    assert len(set(marks)) == len(marks)


@pytest.mark.parametrize(
    "same",
    [
        replace(FORMULA, scale_step=0.1),
        _oil(0, density=0.92),
        _oil(0, low=180.0, high=199.0),
    ],
    ids=["scale", "density", "range"],
)
def test_what_changes_no_chemistry_changes_no_fingerprint(same: Formula) -> None:
    assert fingerprint(same) == fingerprint(FORMULA)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Alkali(1.0, 0.0, 0.98, 1.0), Alkali(1.0, 0.0, 0.98, 0.9)),
        (Alkali(0.0, 1.0, 1.0, 0.9), Alkali(0.0, 1.0, 0.98, 0.9)),
    ],
    ids=["no potassium", "no sodium"],
)
def test_the_purity_of_an_alkali_that_is_not_used_is_no_matter(one: Alkali, other: Alkali) -> None:
    first, second = replace(FORMULA, alkali=one), replace(FORMULA, alkali=other)
    assert weigh(first) == weigh(second)
    assert fingerprint(first) == fingerprint(second)


def test_fat_of_a_liquid_changes_the_superfat_and_so_the_fingerprint() -> None:
    """A drink of 1.5 % fat, or of 9 %: no alkali is weighed for that fat, so it joins the superfat."""
    rich = _liquid(fat=0.09)
    gained = weigh(rich).superfat_with_liquids_fat - weigh(FORMULA).superfat_with_liquids_fat
    assert gained > 0.003
    assert fingerprint(rich) != fingerprint(FORMULA)


def test_twelve_hexadecimal_figures_of_which_six_may_be_quoted() -> None:
    mark = fingerprint(FORMULA)
    assert re.fullmatch(r"[0-9a-f]{12}", mark)
    assert len(mark) == LENGTH
    for length in range(6, LENGTH + 1):
        assert matches(mark[:length], mark)
    assert not matches(mark[:5], mark)
    assert not matches("", mark)
    wrong = mark[:5] + ("0" if mark[5] != "0" else "1")
    assert not matches(wrong, mark)
    assert not matches(mark[:11] + ("0" if mark[11] != "0" else "1"), mark)


CANONICAL = {
    "additions": [
        ["ash-soap", "", "trace", "0.012000", "0.000000", "1.100000"],
        ["citric-acid", "", "lye", "0.010000", "15.600000", "0.000000"],
        ["kaolin", "chalk", "trace", "0.006000", "0.000000", "0.000000"],
        ["lactic", "", "lye", "0.020000", "9.760000", "0.000000", "0.120000"],
    ],
    "alkali": [["0.700000", "0.980000"], ["0.300000", "0.900000"]],
    "liquids": [
        ["oat-drink", "", "trace", "0.060000", "0.000000", "0.900000", "0.015000", "190.000000"],
        ["vinegar", "", "lye", "0.030000", "0.832500", "0.950000", "0.000000", "190.000000"],
    ],
    "oils": [
        ["castor", "", "0.050000", "181.000000", "triglyceride"],
        ["coconut", "", "0.250000", "254.000000", "triglyceride"],
        ["olive", "", "0.450000", "191.000000", "triglyceride"],
        ["shea-butter", "calendula", "0.250000", "179.000000", "triglyceride"],
    ],
    "portions": [
        ["chalk", "0.400000", [["olive", "", "0.400000", "191.000000", "triglyceride"]]],
        ["slate", "0.600000", []],
    ],
    "pots": "one",
    "superfat": "0.050000",
    "water": ["lye-strength", "0.330000"],
}


def test_a_mark_recorded_years_ago_is_made_the_same_way_today() -> None:
    """What is digested, written out by hand: grams per gram of oils, millimoles of acid and base per gram."""
    formula = replace(
        FORMULA,
        liquids=(*FORMULA.liquids, Liquid("vinegar", 30.0, 0.95, acid=0.0008325, stage="lye")),
        additions=(*FORMULA.additions, Addition("lactic", 20.0, "lye", acid=0.00976, water=0.12)),
        portions=(Portion("chalk", 0.4, (Oil("olive", 400.0, 191.0, 184.0, 196.0),)), Portion("slate", 0.6)),
    )
    form = json.dumps(CANONICAL, separators=(",", ":"))
    assert fingerprint(formula) == hashlib.sha256(form.encode()).hexdigest()[:12]
