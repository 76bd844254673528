"""Batch records with their place, whichever file they stand in.

A recipe's batches stand in its own front matter, or in `batches/SLUG.yaml` for a maker
with many, or in both: they are read the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from typing import Annotated

from pydantic import Field, ValidationError

from saponary.book.recipe_file import RecipeFile
from saponary.reading.findings import Place
from saponary.reading.plain import is_list, is_map
from saponary.reading.reporter import Located
from saponary.reading.tree import Path, Tree
from saponary.schema.batch import Batch
from saponary.schema.fields import Part


class BatchesFile(Part):
    """`batches/SLUG.yaml`."""

    batches: Annotated[list[Batch], Field(max_length=2000)] = []
    """Batches of the recipe of the same name, in a file of their own: batches/NAME.yaml.
    Example: batches: [{lot: A1, poured: 2026-03-02}]
    """


@dataclass(frozen=True)
class BatchRecord(Located):
    """One batch, the file it stands in, and its path there."""

    batch: Batch
    file: str
    tree: Tree
    path: Path

    def place(self, path: Path = (), *, key: bool = False) -> Place:
        """Where a value of this batch stands."""
        return self.tree.place(self.file, (*self.path, *path), key=key)

    def day_path(self, home: Path, day: int) -> Path:
        """Where a day's value stands below `home`, written as a count of days or as a date."""
        counted = (*home, str(day))
        if (*self.path, *counted) in self.tree.values:
            return counted
        return (*home, (self.batch.poured + timedelta(days=day)).isoformat())

    def lines(self) -> tuple[int, int] | None:
        """The first and the last line on which something of this batch stands; None for one without a file."""
        length = len(self.path)
        found = [span.line for path, span in self.tree.values.items() if path[:length] == self.path]
        return (min(found), max(found)) if found else None


def texts(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    """What of a batch is published in the maker's words, by its path in the record."""
    batch = record.batch
    for key, text in (("notes", batch.notes), ("trace", batch.trace)):
        if text:
            yield (key,), text
    for index, test in enumerate(batch.free_alkali):
        yield ("free-alkali", index, "test"), test.test
    for index, photo in enumerate(batch.photos):
        if photo.note:
            yield ("photos", index, "note"), photo.note
        if photo.alt:
            yield ("photos", index, "alt"), photo.alt


def in_recipe(recipe: RecipeFile) -> tuple[BatchRecord, ...]:
    """The batches in a recipe's own file: of one that does not hold, those that do."""
    if recipe.model is not None:
        return records(recipe.model.batches, recipe.file, recipe.tree)
    data: object = recipe.tree.data
    written: object = data.get("batches") if is_map(data) else None
    found = ((i, _read(one)) for i, one in enumerate(written if is_list(written) else ()))
    return tuple(
        BatchRecord(batch, recipe.file, recipe.tree, ("batches", i))
        for i, batch in found
        if batch is not None
    )


def _read(written: object) -> Batch | None:
    try:
        return Batch.model_validate(written)
    except ValidationError:
        return None


def records(batches: list[Batch], file: str, tree: Tree) -> tuple[BatchRecord, ...]:
    """The batches of one file as records."""
    return tuple(BatchRecord(batch, file, tree, ("batches", i)) for i, batch in enumerate(batches))
