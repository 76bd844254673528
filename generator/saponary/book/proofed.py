"""A recipe that was computed and checked."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.book.facts import Facts
from saponary.book.status import Status
from saponary.reading.findings import Finding


@dataclass(frozen=True)
class Proofed:
    """One recipe that could be computed, its status, and what the checks found in it."""

    computed: Computed
    status: Status
    facts: Facts
    identity: str
    """A digest of all that it rests on: where it is the same, the same is made of it by the same code."""
    findings: tuple[Finding, ...] = ()

    @property
    def slug(self) -> str:
        return self.computed.slug
