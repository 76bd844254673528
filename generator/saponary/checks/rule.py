"""What a rule is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from saponary.book.computed import Computed
from saponary.reading.findings import Finding

Family = Literal["stale", "danger", "sense", "words", "label"]


@dataclass(frozen=True)
class Rule:
    """A rule's stable name, its family, what it is for in plain words, and its function."""

    name: str
    family: Family
    about: str
    check: Callable[[Computed], Iterator[Finding]]
    waivable: bool = True
