"""`saponary rules RULE`."""

from __future__ import annotations

import argparse

from saponary.checks.listed import listed
from saponary.cli.command import CLEAN, Misuse
from saponary.manual.rule_lines import rule_lines, sample_lines
from saponary.reading.findings import suggest


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rule", nargs="?", help="one rule's name: what it is for, a sample, and what to do")


def run(given: argparse.Namespace) -> int:
    known = {rule.name: rule for rule in listed()}
    if given.rule is not None and given.rule not in known:
        raise Misuse(f"there is no rule {given.rule!r}; {suggest(given.rule, known, 'rules')}")
    for rule in known.values() if given.rule is None else (known[given.rule],):
        print("\n    ".join(rule_lines(rule)))
    if given.rule is not None:
        print("\n".join(sample_lines(given.rule)))
    return CLEAN
