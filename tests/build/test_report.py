"""SARIF lists every rule that its results name."""

from __future__ import annotations

import json
from pathlib import Path

from saponary.build.proof import prove
from saponary.build.report import as_sarif
from saponary.checks.rules import RULES
from support import PLAIN, write_book


def test_results_name_rules_of_the_list(tmp_path: Path) -> None:
    files = {"recipes/a.md": PLAIN, "recipes/b.md": PLAIN, "recipes/c.md": PLAIN.replace("olive", "olives")}
    found = prove(write_book(tmp_path, files)).findings
    (run,) = json.loads(as_sarif(found))["runs"]
    listed = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert listed == [rule.name for rule in RULES]
    named = [result["ruleId"] for result in run["results"]]
    assert named == [finding.rule for finding in found]
    assert {"titles", "sense", "unsigned"} <= set(named) <= set(listed)
