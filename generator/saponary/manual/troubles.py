"""What to do about each finding: a few lines that a rule finds fault with, and the same put right.

The lines stand in `tables/manual/findings.yaml`; what a rule says of them is asked of the rule itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

from saponary.manual.bases import FILES


class Trouble(NamedTuple):
    """A rule's sample. `file` is the kind of file that the lines stand in; both texts are empty where no few
    lines can bring the finding about.
    """

    rule: str
    do: str
    file: str = "recipe"
    wrong: str = ""
    right: str = ""
    beside: Mapping[str, str] = {}

    @property
    def place(self) -> str:
        """Where the lines stand, in words."""
        return {"recipe": "in a recipe", "notes": "in a recipe's notes", "class": "in a class"}.get(
            self.file, f"in {FILES.get(self.file, self.file)}"
        )


@cache
def troubles() -> Mapping[str, Trouble]:
    """By the rule's name."""
    import yaml  # a list of the rules alone does without

    text = files("saponary.tables.manual").joinpath("findings.yaml").read_text(encoding="utf-8")
    told: Mapping[str, Mapping[str, Any]] = yaml.load(text, Loader=yaml.BaseLoader)
    return {
        rule: Trouble(
            rule=rule,
            do=row["do"],
            file=row.get("in", "recipe"),
            wrong=row.get("wrong", ""),
            right=row.get("right", ""),
            beside=row.get("beside", {}),
        )
        for rule, row in told.items()
    }
