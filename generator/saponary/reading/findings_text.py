"""Findings as a person reads them on a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saponary.reading.decode import printable
from saponary.reading.findings import Finding, errors


def as_text(findings: Iterable[Finding]) -> str:
    """One finding a line, `file:line:column: severity [rule] message`, its hint below."""
    lines: list[str] = []
    for f in findings:
        lines.append(printable(f"{f.place}: {f.severity} [{f.rule}] {f.message}"))
        if f.hint:
            lines.append(f"    {printable(f.hint)}")
    return "\n".join(lines)


def summary(recipes: int, findings: Sequence[Finding]) -> str:
    """How many recipes were read, and what was found."""
    wrong = len(errors(findings))
    told = ((recipes, "recipe"), (wrong, "error"), (len(findings) - wrong, "warning"))
    first, *rest = (f"{count} {what}{'s' * (count != 1)}" for count, what in told)
    return ", ".join((f"{first} recomputed", *rest))
