"""Each rule has a sample: lines that it finds fault with, and the same lines put right."""

from __future__ import annotations

import pytest

from saponary.checks.rules import RULES
from saponary.manual.held import found
from saponary.manual.sample import ALLOWED
from saponary.manual.troubles import Trouble, troubles

NOT_BY_LINES = {"press", "template", "writing"}
"""Rules that no few lines can bring about."""


def test_every_rule_has_a_sample() -> None:
    assert set(troubles()) == {rule.name for rule in RULES}, "add the rule to tables/manual/findings.yaml"
    assert {name for name, one in troubles().items() if not (one.wrong and one.right)} == NOT_BY_LINES


@pytest.mark.parametrize("one", [t for t in troubles().values() if t.wrong], ids=lambda one: one.rule)
def test_the_wrong_lines_are_found_and_the_right_ones_are_not(one: Trouble) -> None:
    assert one.rule in {finding.rule for finding in found(one, one.wrong)}
    assert {finding.rule for finding in found(one, one.right)} <= ALLOWED - {one.rule}
