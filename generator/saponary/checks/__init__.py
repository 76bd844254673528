"""The rules: one file each, registered by being there.

A rule is a small pure function from a case (one recipe, its figures, its book) to
findings. Every module in this package that has a `RULE` takes part.
"""

from __future__ import annotations

import pkgutil
from collections.abc import Iterable
from functools import cache
from importlib import import_module

from saponary.book.findings import Finding, suggest
from saponary.checks.rule import Case, Rule


@cache
def rules() -> tuple[Rule, ...]:
    """All rules, by name."""
    found = [
        import_module(f"{__name__}.{module.name}").RULE
        for module in pkgutil.iter_modules(__path__)
        if module.name not in ("rule",)
    ]
    return tuple(sorted(found, key=lambda rule: rule.name))


def check(case: Case) -> list[Finding]:
    """Every rule over one recipe, its waivers applied."""
    found = [finding for rule in rules() for finding in rule.check(case)]
    return _waived(case, found)


def _waived(case: Case, found: Iterable[Finding]) -> list[Finding]:
    kept = list(found)
    known = {rule.name: rule for rule in rules()}
    for index, waiver in enumerate(case.model.waive):
        path = ("waive", index, "rule")
        rule = known.get(waiver.rule)
        if rule is None:
            kept.append(
                case.finding(
                    "waiver", path, f"there is no rule {waiver.rule!r}", suggest(waiver.rule, known, "rules")
                )
            )
        elif not rule.waivable:
            kept.append(
                case.finding(
                    "waiver", path, f"the rule {waiver.rule!r} cannot be waived", "mend the recipe instead"
                )
            )
        elif not any(f.rule == waiver.rule for f in kept):
            kept.append(
                case.finding(
                    "waiver",
                    path,
                    f"the rule {waiver.rule!r} finds nothing here",
                    "take the waiver out",
                    "warning",
                )
            )
        else:
            kept = [f for f in kept if f.rule != waiver.rule]
    return kept
