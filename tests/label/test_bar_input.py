"""What the pour dusts, sets in or sprinkles without a weight is in the bar, and on its list."""

from __future__ import annotations

import pytest

from saponary.label import lists
from saponary.label.bar_input import bar_input
from saponary.label.tables import jurisdictions
from support import PLAIN, prove_one

TWO = "portions: [{name: a, share: 1/2}, {name: b, share: 1/2}]\n"
POUR = "pour:\n  - beds: [{of: a}]\n  - line: {of: cocoa, over: a}\n  - beds: [{of: b}]\n"


@pytest.mark.parametrize(
    ("more", "unweighed"),
    [
        ("", ()),
        (TWO + POUR, ("cocoa",)),
        (TWO + POUR + "  - top: {sprinkle: poppy-seed}\n", ("cocoa", "poppy-seed")),
        (TWO + "additions: [{what: cocoa, amount: 2 g}]\n" + POUR, ()),
    ],
)
def test_what_has_no_weight_of_its_own(more: str, unweighed: tuple[str, ...]) -> None:
    one = prove_one(PLAIN.replace("signed:\n", more + "signed:\n")).recipes[0].computed
    assert bar_input(one).unweighed == unweighed
    listed = lists.bar(one).ingredients(jurisdictions()["eu"]).text
    assert ("Theobroma Cacao" in listed) == bool("cocoa" in more)
