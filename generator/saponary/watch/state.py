"""What a look at a book came to, as the terminal and the browser tell it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from saponary.quantity.rounding import show
from saponary.reading.files import Files
from saponary.reading.findings import Finding, errors, has_errors
from saponary.reading.findings_text import as_text, summary

Told = Mapping[str, object]

_MOST = 100
"""Findings that a browser shows, the errors first; the terminal has told them all."""
_LONGEST = 200
"""Characters of a line of the maker's file that are shown."""


@dataclass(frozen=True)
class State:
    """The book as it was looked at the last time. `number` counts the looks."""

    number: int
    findings: tuple[Finding, ...] = ()
    editions: tuple[tuple[str, str], ...] = ()
    """Names of editions with the addresses of their first pages."""
    recipes: int = 0
    seconds: float = 0.0
    shows: bool = False
    """Whether there are pages; where errors stop them these are of an earlier state."""
    left_out: frozenset[str] = frozenset()
    """Files of recipes that nobody has signed, and whose errors stop nothing."""

    @cached_property
    def failed(self) -> bool:
        return has_errors(self.findings)

    @property
    def stopped(self) -> bool:
        """Whether errors keep the pages as they were."""
        return any(found.place.file not in self.left_out for found in errors(self.findings))

    @property
    def counted(self) -> str:
        """In one line, for the terminal."""
        return f"{summary(self.recipes, self.findings)}, {show(self.seconds, 2)} s"

    def as_text(self, before: State | None = None) -> str:
        """For the terminal: the findings, and what they come to; those that `before` had are not told again."""
        known = frozenset(before.findings) if before is not None else frozenset[Finding]()
        new = as_text(f for f in self.findings if f not in known)
        return "\n".join(part for part in (new, self.counted) if part)

    def as_data(self, files: Files | None) -> Told:
        """For the browser, as JSON takes it; each finding with the line of the file that it is about."""
        lines = _Lines(files)
        return {
            "number": self.number,
            "failed": self.failed,
            "stopped": self.stopped,
            "shows": self.shows,
            "errors": len(errors(self.findings)),
            "count": len(self.findings),
            "editions": [{"name": name, "address": address} for name, address in self.editions],
            "findings": [
                {
                    "place": str(f.place),
                    "severity": f.severity,
                    "rule": f.rule,
                    "message": f.message,
                    "hint": f.hint,
                    "line": lines.at(f.place.file, f.place.line),
                    "column": f.place.column,
                }
                for f in self.findings[:_MOST]
            ],
        }


class _Lines:
    """Lines of a book's files, each file read once."""

    def __init__(self, files: Files | None) -> None:
        self._files = files
        self._read: dict[str, list[str]] = {}

    def at(self, file: str, line: int) -> str:
        """A line, counted from 1; empty where there is none."""
        if file not in self._read:
            data = self._files.read(file) if self._files is not None else None
            text = data.decode("utf-8", "replace") if isinstance(data, bytes) else ""
            self._read[file] = text.removeprefix("\ufeff").splitlines()
        lines = self._read[file]
        return lines[line - 1][:_LONGEST] if 0 < line <= len(lines) else ""


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Errors first, else as they stand, which is by place."""
    return tuple(sorted(findings, key=lambda f: f.severity != "error"))
