"""What a rule is, and what it is given."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from saponary.book.catalogue import Figure
from saponary.book.library import Book, RecipeFile
from saponary.book.quotes import Quote
from saponary.book.records import BatchRecord
from saponary.book.resolve import Built
from saponary.lye.figures import Figures
from saponary.reading.findings import Finding, Place, Severity
from saponary.reading.yaml_tree import Path
from saponary.schema.recipe import Recipe
from saponary.words.entries import WordList

Family = Literal["stale", "danger", "sense", "words", "label"]


@dataclass(frozen=True)
class Case:
    """One recipe that could be computed, with everything a rule may look at."""

    file: RecipeFile
    model: Recipe
    built: Built
    figures: Figures
    catalogue: Mapping[str, Figure]
    quotes: tuple[Quote, ...]
    fingerprint: str
    batches: tuple[BatchRecord, ...]
    words: WordList
    book: Book

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where a value (or its key) stands in the recipe file."""
        span = self.file.tree.nearest(path, key=key)
        return Place(self.file.file, span.line, span.column) if span else Place(self.file.file)

    def finding(
        self,
        rule: str,
        path: Path,
        message: str,
        hint: str,
        severity: Severity = "error",
        *,
        key: bool = False,
    ) -> Finding:
        """A finding on the value at `path`."""
        return Finding(rule, severity, self.place(path, key=key), message, hint)

    def additions(self) -> Iterator[tuple[Path, str, str | None]]:
        """Every addition as written: its path, its id and the portion it goes into."""
        for index, item in enumerate(self.model.additions):
            yield ("additions", index), item.what, None
        for p, portion in enumerate(self.model.portions):
            for index, item in enumerate(portion.additions):
                yield ("portions", p, "additions", index), item.what, portion.name

    def liquids(self) -> Iterator[tuple[Path, str, str]]:
        """Every liquid as written: its path, its id and its stage."""
        for index, item in enumerate(self.model.liquids):
            yield ("liquids", index), item.what, item.at
        for p, portion in enumerate(self.model.portions):
            for index, item in enumerate(portion.liquids):
                yield ("portions", p, "liquids", index), item.what, item.at


@dataclass(frozen=True)
class Rule:
    """A rule's stable name, its family, what it is for in plain words, and its function."""

    name: str
    family: Family
    about: str
    check: Callable[[Case], Iterator[Finding]]
    waivable: bool = True
