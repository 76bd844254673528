"""`saponary rules` tells of every rule what it may find and where it is waived."""

from __future__ import annotations

import pytest

from saponary.checks.rules import RULES
from saponary.cli.main import main
from saponary.manual.rule_lines import rule_lines

LISTED = {rule.name: rule for rule in RULES}


@pytest.mark.parametrize(
    ("name", "head"),
    [
        ("usual-rate", "usual-rate (sense; warning; can be waived with a reason in a recipe for one addition at a time)"),
        ("titles", "titles (sense; warning; can be waived with a reason in a recipe)"),
        ("superfat", "superfat (danger; error; cannot be waived)"),
        ("scraps", "scraps (sense; warning; can be waived with a reason in pantry.yaml for one scrap at a time)"),
        ("reading", "reading (reading; error or warning; cannot be waived)"),
        ("claims", "claims (words; error or warning; can be waived with a reason in a recipe or a class or a page or book.yaml "
         "or pantry.yaml for one phrase at a time)"),
    ],
)  # fmt: skip
def test_the_head_of_a_rule(name: str, head: str) -> None:
    assert rule_lines(LISTED[name]) == (head, LISTED[name].about)


def test_every_rule_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules"]) == 0
    heads = [line.split(" (")[0] for line in capsys.readouterr().out.splitlines() if not line.startswith(" ")]
    assert heads == [rule.name for rule in RULES]
