"""The teacher's shopping list names the same things as the page that the work is done from."""

from __future__ import annotations

from saponary.messages.message import Within
from saponary.views.stages.before import unweighed
from support import PLAIN, prove_one

POUR = """\
additions:
  - {what: poppy-seed, amount: 12 g}
portions:
  - {name: pale, share: 100 %}
pour:
  - beds: [{of: pale}]
  - top: {shape: flat, sprinkle: poppy-seed}
"""


def test_what_is_sprinkled_without_a_weight_is_on_the_list_though_some_of_it_is_stirred_in() -> None:
    text = PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\n{POUR}", 1)
    (recipe,) = prove_one(text).recipes
    assert unweighed(recipe.computed) == (Within("Poppy seed"),)
