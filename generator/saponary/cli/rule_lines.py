"""A rule as `saponary rules` prints it: its name, what it may find, how it is waived, what it is for."""

from __future__ import annotations

from saponary.checks.listed import Listed
from saponary.reading.findings import Home

_HOMES: dict[Home, str] = {
    "recipe": "a recipe",
    "class": "a class",
    "book": "book.yaml",
    "pantry": "pantry.yaml",
    "claims": "claims.yaml",
}


def rule_lines(rule: Listed) -> tuple[str, str]:
    """Its head, and what it is for."""
    return f"{rule.name} ({rule.family}; {' or '.join(rule.kinds)}; {_waived(rule)})", rule.about


def _waived(rule: Listed) -> str:
    if not rule.waivable:
        return "cannot be waived"
    where = " or ".join(_HOMES[home] for home in rule.waivable)
    each = f" for one {rule.each} at a time" if rule.each else ""
    return f"can be waived with a reason in {where}{each}"
