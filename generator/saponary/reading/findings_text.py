"""Findings as a person reads them on a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from saponary.reading.findings import Finding


def as_text(findings: Iterable[Finding]) -> str:
    """One finding a line, `file:line:column: severity [rule] message`, its hint below."""
    lines: list[str] = []
    for f in findings:
        lines.append(_one_line(f"{f.place}: {f.severity} [{f.rule}] {f.message}"))
        if f.hint:
            lines.append(f"    {_one_line(f.hint)}")
    return "\n".join(lines)


def _one_line(text: str) -> str:
    """Text from a maker's file, safe for a terminal: control characters as escapes."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)
