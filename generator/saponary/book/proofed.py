"""A recipe that was computed and checked."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from saponary.book.computed import Computed
from saponary.book.facts import Facts, status_of
from saponary.book.status import Status
from saponary.reading.findings import Finding


@dataclass(frozen=True)
class Proofed:
    """One recipe that could be computed, its status, and what the checks found in it."""

    slug: str
    computed: Computed
    facts: Facts
    identity: str
    """A digest of all that it rests on: where it is the same, the same is made of it by the same code."""
    findings: tuple[Finding, ...] = ()

    @cached_property
    def status(self) -> Status:
        """Its status, and what is missing to the next one. Its name alone is among the facts."""
        return status_of(self.computed)
