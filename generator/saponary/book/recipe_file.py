"""One recipe as read."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.reading.textfile import TextFile
from saponary.schema.recipe import Recipe
from saponary.schema.waivers import Waived, placed


@dataclass
class RecipeFile(TextFile):
    """A recipe's file. `model` is None where the front matter does not hold."""

    model: Recipe | None = None
    signs: bool = False
    """Whether it has signed figures, or may have: a file that cannot be read may."""

    def waived(self) -> tuple[Waived, ...]:
        """What it sets aside, and why."""
        return placed(self.model.waive, self.tree, self.file) if self.model is not None else ()
