"""The rule `portion-superfat`: free lye in one portion, though the batch has none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from checks.books import TWO, more, put, recipe, with_figures
from saponary.checks.portion_superfat import check
from support import prove_one

BREAKER = recipe(
    more(
        "portions:\n  - {name: big, share: 9/10, additions: [{what: citric-acid, amount: 20 g/kg}]}\n"
        "  - {name: small, share: 1/10}\n"
    )
)
TOLD = [
    (
        "recipes/tried.md:13:5",
        "error",
        "the portions differ in superfat: 'small' -2.6 %; the batch has 5.0 %; 'small' contains free lye",
        "the lye is for all portions: put what binds or brings alkali into all of them, or write pots: separate",
    ),
]
NEIGHBOUR = recipe(
    more(
        "portions:\n  - {name: big, share: 9/10, additions: [{what: citric-acid, amount: 5 g/kg}]}\n"
        "  - {name: small, share: 1/10}\n"
    )
)
ALSO = [
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, additions: [{what: citric-acid, amount: 5 g}]}",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:13:5",
                "warning",
                "the portions differ in superfat: 'light' 7.1 %, 'dark' 2.9 %; the batch has 5.0 %",
                "the lye is for all portions: put what binds or brings alkali into all of them, or write pots: separate",
            ),
        ],
    ),
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, additions: [{what: citric-acid, amount: 12 g}]}",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:13:5",
                "error",
                "the portions differ in superfat: 'light' 10.1 %, 'dark' -0.1 %; the batch has 5.0 %; 'dark' contains free lye",
                "the lye is for all portions: put what binds or brings alkali into all of them, or write pots: separate",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("here", "told"),
    [
        (0.0, "warning"),
        (-1e-9, "error"),
        (0.031, None),
        (0.029, "warning"),
        (0.069, None),
        (0.071, "warning"),
    ],
)
def test_zero_and_two_percentage_points_are_the_limits(here: float, told: str | None) -> None:
    """Two percentage points: common practice, no source."""
    one = prove_one(TWO.replace("SUPERFAT", "5 %").replace("FINGERPRINT", "000000")).recipes[0].computed
    light, dark = one.figures.portions
    tried = with_figures(
        one, superfat=0.05, portions=(replace(light, superfat=here), replace(dark, superfat=0.05))
    )
    assert [f.severity for f in check(tried)] == ([told] if told else [])


def test_a_caustic_batch_is_told_by_its_own_rule() -> None:
    one = prove_one(TWO.replace("SUPERFAT", "5 %").replace("FINGERPRINT", "000000")).recipes[0].computed
    assert list(check(with_figures(one, superfat=-0.01))) == []
