"""Makes findings about one file, turning a path in its data into line and column."""

from __future__ import annotations

from abc import ABC, abstractmethod

from saponary.reading.findings import Finding, Place, Severity
from saponary.reading.tree import Path, Tree


class Located(ABC):
    """Something that stands in a file, and can say where each of its values does."""

    @abstractmethod
    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where a value (or its key) stands."""

    def finding(
        self,
        rule: str,
        path: Path,
        message: str,
        hint: str,
        severity: Severity = "error",
        *,
        key: bool = False,
        about: str = "",
    ) -> Finding:
        """A finding on the value at `path`."""
        return Finding(rule, severity, self.place(path, key=key), message, hint, about)


class Reporter(Located):
    """Findings of one rule about one file."""

    def __init__(self, tree: Tree, file: str, rule: str) -> None:
        self.tree, self.file, self.rule = tree, file, rule
        self.findings: list[Finding] = []

    def place(self, path: Path, *, key: bool = False) -> Place:
        return self.tree.place(self.file, path, key=key)

    def add(
        self, path: Path, message: str, hint: str, severity: Severity = "error", *, key: bool = False
    ) -> None:
        self.findings.append(self.finding(self.rule, path, message, hint, severity, key=key))
