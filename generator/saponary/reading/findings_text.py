"""Findings as a person reads them on a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from saponary.reading.decode import printable
from saponary.reading.findings import Finding


def as_text(findings: Iterable[Finding]) -> str:
    """One finding a line, `file:line:column: severity [rule] message`, its hint below."""
    lines: list[str] = []
    for f in findings:
        lines.append(printable(f"{f.place}: {f.severity} [{f.rule}] {f.message}"))
        if f.hint:
            lines.append(f"    {printable(f.hint)}")
    return "\n".join(lines)
