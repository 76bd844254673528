"""A rule as a terminal shows it: what it may find, how it is waived, what it is for, and a sample with its correction."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import indent

from saponary.checks.listed import Listed
from saponary.manual.troubles import troubles
from saponary.reading.findings import Home

_HOMES: dict[Home, str] = {
    "recipe": "a recipe",
    "class": "a class",
    "page": "a page",
    "book": "book.yaml",
    "pantry": "pantry.yaml",
}


def rule_lines(rule: Listed) -> tuple[str, str]:
    """Its head, and what it is for."""
    return f"{rule.name} ({rule.family}; {' or '.join(rule.kinds)}; {waived(rule)})", rule.about


def waived(rule: Listed) -> str:
    if not rule.waivable:
        return "cannot be waived"
    where = " or ".join(_HOMES[home] for home in rule.waivable)
    each = f" for one {rule.each} at a time" if rule.each else ""
    return f"can be waived with a reason in {where}{each}"


def sample_lines(name: str) -> Iterator[str]:
    """What to do about a finding of this rule, lines that it finds fault with, and the same put right."""
    one = troubles()[name]
    yield f"what to do: {one.do}"
    if one.wrong:
        yield f"wrong, {one.place}:"
        yield indent(one.wrong, "    ")
        yield "right:"
        yield indent(one.right, "    ")
