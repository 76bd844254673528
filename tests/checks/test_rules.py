"""Every rule is listed, has a test of its own name, breaks alone, and is waived for one thing alone."""

from __future__ import annotations

import importlib
import re
from dataclasses import asdict, fields
from pathlib import Path

import pytest

from checks.books import RECIPE, Files, proofed, signed
from saponary.build.proof import Proof
from saponary.checks.listed import NOWHERE, Listed, listed
from saponary.checks.rule import Rule
from saponary.checks.rules import RULES
from support import REPOSITORY, read_plain

ROOM = REPOSITORY / "generator" / "saponary" / "checks"
HELPERS = {"__init__", "about", "kept", "listed", "made_elsewhere", "rule", "rules", "run", "settle", "texts"}
OWN = [rule for rule in RULES if rule.recipe is not None or rule.book is not None]


def module(rule: Rule) -> str:
    return rule.name.replace("-", "_")


def case(rule: Rule, name: str) -> Files:
    """`BREAKER` or `NEIGHBOUR` of a rule's own file of tests."""
    files: Files = getattr(importlib.import_module(f"checks.test_{module(rule)}"), name)
    return files


def test_each_module_is_a_listed_rule_and_has_its_tests() -> None:
    modules = {path.stem for path in ROOM.glob("*.py")} - HELPERS
    assert modules == {module(rule) for rule in OWN}, (
        "a rule is a module of checks/ and a line of RULES in checks/rules.py"
    )
    for rule in OWN:
        assert (Path(__file__).parent / f"test_{module(rule)}.py").is_file(), (
            f"write tests/checks/test_{module(rule)}.py with BREAKER, a book that breaks {rule.name!r} alone, "
            "TOLD, what it is told, and NEIGHBOUR, one much like it that breaks nothing"
        )


def test_names_are_unique_and_in_order() -> None:
    own = [rule.name for rule in OWN]
    assert own == sorted(own), "list the rules of RULES in checks/__init__.py by name"
    assert len({rule.name for rule in RULES}) == len(RULES)
    assert all(rule.about.endswith(".") and rule.kinds for rule in RULES)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.name) for rule in RULES)


def test_what_is_listed_without_the_checks_is_what_the_rules_say() -> None:
    said = [{field.name: getattr(rule, field.name) for field in fields(Listed)} for rule in RULES]
    assert [asdict(rule) for rule in listed()] == said


@pytest.mark.parametrize("rule", OWN, ids=lambda rule: rule.name)
def test_its_breaker_breaks_just_this_rule(rule: Rule) -> None:
    files = case(rule, "BREAKER")
    proof = proofed(files)
    assert {f.rule for f in proof.findings} == {rule.name}
    for finding in proof.findings:
        lines = signed(files)[finding.place.file].split("\n")
        assert 1 <= finding.place.line <= len(lines)
        assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
        assert finding.hint and finding.severity in rule.kinds
        assert not rule.waivable or bool(finding.about) == bool(rule.each)


@pytest.mark.parametrize("rule", OWN, ids=lambda rule: rule.name)
def test_it_says_just_this(rule: Rule) -> None:
    """The place, the severity, the message and the hint, but for the waiver, which has a test of its own."""
    told = importlib.import_module(f"checks.test_{module(rule)}").TOLD
    findings = proofed(case(rule, "BREAKER")).findings
    assert [
        (str(f.place), f.severity, f.message, f.hint.partition("; or waive it")[0]) for f in findings
    ] == told


Told = list[tuple[str, str, str, str]]
ALSO: list[tuple[str, Files, Told]] = [
    (rule.name, files, told)
    for rule in OWN
    for files, told in getattr(importlib.import_module(f"checks.test_{module(rule)}"), "ALSO", ())
]
"""Further books that break a rule, and all that the rule says of them."""


@pytest.mark.parametrize(("rule", "files", "told"), ALSO, ids=[name for name, _, _ in ALSO])
def test_of_other_books_it_says_just_this(rule: str, files: Files, told: Told) -> None:
    """With the waiver to write, whatever other rules may say."""
    findings = [f for f in proofed(files).findings if f.rule == rule]
    assert [(str(f.place), f.severity, f.message, f.hint) for f in findings] == told


@pytest.mark.parametrize("rule", OWN, ids=lambda rule: rule.name)
def test_its_neighbour_breaks_none(rule: Rule) -> None:
    proof = proofed(case(rule, "NEIGHBOUR"))
    assert [f for f in proof.findings if f.rule == rule.name] == []
    assert len(proof.recipes) == len(proof.book.recipes)


@pytest.mark.parametrize("rule", OWN, ids=lambda rule: rule.name)
def test_the_hint_is_the_waiver_to_write(rule: Rule) -> None:
    """What a finding says to write sets it aside, and a rule that cannot be waived says nothing of the kind."""
    files = case(rule, "BREAKER")
    broken = proofed(files)
    if rule.waivable == NOWHERE:
        assert all("waive" not in f.hint for f in broken.findings)
        waived = {**files, RECIPE: _with(files[RECIPE], f"{{rule: {rule.name}, because: …}}")}
        assert {f.rule for f in proofed(waived).findings} == {rule.name, "waiver"}
        return
    assert proofed(_waived(files, broken)).findings == ()


def _waived(files: Files, broken: Proof) -> dict[str, str]:
    """The files with every waiver that the findings ask for."""
    wanted: dict[str, list[str]] = {}
    for finding in broken.findings:
        (line,) = re.findall(r"waive: \[(\{.*\})\]$", finding.hint)
        home = re.search(r"with your reason in (\S+):", finding.hint)
        entry = read_plain(line)
        assert entry["rule"] == finding.rule and entry.get("about", "") == finding.about
        wanted.setdefault(home[1] if home else finding.place.file, []).append(line)
    out = dict(files)
    for file, lines in wanted.items():
        out[file] = _with(files.get(file, ""), ", ".join(lines))
    return out


def _with(text: str, entries: str) -> str:
    waive = f"waive: [{entries.replace('…', 'the reason is written down here')}]\n"
    return text.replace("---\n", f"---\n{waive}", 1) if text.startswith("---\n") else waive + text
