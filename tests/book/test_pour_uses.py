"""What a pour dusts, sets in and sprinkles; what was weighed for it and what was not."""

from __future__ import annotations

import pytest

from saponary.book.computed import Computed
from saponary.book.pour_uses import PourUse, pour_uses
from saponary.label.bar_input import bar_input
from support import PLAIN, prove_one

POUR = """\
portions:
  - {name: pale, share: 100 %}
pour:
  - beds: [{of: pale}]
  - line: {of: kaolin, over: pale}
  - top: {shape: flat, sprinkle: poppy-seed}
"""


def computed(additions: str) -> Computed:
    proof = prove_one(PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\n{additions}{POUR}", 1))
    return proof.recipes[0].computed


def test_what_is_only_stirred_in_is_not_weighed_for_the_pour() -> None:
    """Poppy seed both stirred in and sprinkle: the scale saw what was stirred in, not what lies on top."""
    made = computed("additions:\n  - {what: poppy-seed, amount: 12 g}\n")
    assert pour_uses(made) == (
        PourUse("kaolin", "line", False, ("pour", 1, "line", "of")),
        PourUse("poppy-seed", "sprinkle", False, ("pour", 2, "top", "sprinkle")),
    )


def test_what_is_weighed_in_at_the_pour_is_weighed() -> None:
    made = computed("additions:\n  - {what: poppy-seed, amount: 12 g, at: pour}\n")
    assert [(use.what, use.weighed) for use in pour_uses(made)] == [("kaolin", False), ("poppy-seed", True)]


@pytest.mark.parametrize(("at", "unweighed"), [("trace", ("kaolin",)), ("pour", ("kaolin",))])
def test_an_ingredient_list_names_a_thing_once(at: str, unweighed: tuple[str, ...]) -> None:
    made = computed(f"additions:\n  - {{what: poppy-seed, amount: 12 g, at: {at}}}\n")
    assert bar_input(made).unweighed == unweighed
