"""What a method of making soap decides: its stages, its keys, its drawing, its cautions and its days.

A method is data. Whoever makes a page, a check or a drawing asks the method of the recipe, and
none of them asks for its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

StageId = Literal[
    "before",
    "lye",
    "oils",
    "trace",
    "grate",
    "melt",
    "cook",
    "dilute",
    "after-cook",
    "split",
    "pour",
    "cover",
    "dry",
    "rest",
    "fill",
]
"""The stages of work that there are. A method has some of them, in its own order."""

LiquidStage = Literal["lye", "oils", "trace", "melt", "after-cook"]
AdditionStage = Literal["lye", "oils", "trace", "melt", "after-cook", "pour"]
"""The stages at which a recipe may put in a liquid, and an addition."""

Makes = Literal["bar", "soft", "liquid"]
"""Soft soap is of potassium, and keeps to no shape of its own."""
Vessel = Literal["mould", "jar", "bottle"]
Top = Literal["flat", "rough"]
Waits = Literal["cure", "drying", "rest"]
"""What the days pass by: the end of saponification and drying, drying alone, or rest."""
Laying = Literal["beds", "columns", "drops", "plops", "swirl", "line", "embeds", "top"]

EVERY_LAYING: frozenset[Laying] = frozenset(
    ("beds", "columns", "drops", "plops", "swirl", "line", "embeds", "top")
)
BY_THE_SPOON: frozenset[Laying] = frozenset(("beds", "plops", "line", "embeds", "top"))
"""What can be laid of a soap that no longer runs."""


@dataclass(frozen=True)
class Days:
    """Days from the making of a lot until it is ready.

    `least` is the day before which no lot is ready, whatever a scale says; None for the book's own
    days of cure. `usual` is the day that counts where no weighings tell one; None likewise. `reads_weighings`
    is true where bars dry and are weighed for it.
    """

    waits: Waits
    least: int | None
    usual: int | None
    reads_weighings: bool


@dataclass(frozen=True)
class Method:
    """One method. `refuses` says of each key of a recipe or of its batches that does not fit it why it does
    not; a key inside another is written with dots (`oils.fill`, `batches.weighed`).

    `weighs_lye` is false where no lye is weighed at all. `moves` says at which stage goes in what nobody
    places: for the stage that the pantry gives an addition, the stage it has here; liquids go in at `liquids_at`.
    `cautions` are those for whoever makes it, by id. `lays` are the steps of a pour that can be made. `potassium` is true where sodium would set the soap hard.
    """

    name: str
    makes: Makes
    stages: tuple[StageId, ...]
    vessel: Vessel
    top: Top
    lays: frozenset[Laying]
    days: Days
    cautions: tuple[str, ...] = ()
    refuses: Mapping[str, str] = field(default_factory=dict[str, str])
    weighs_lye: bool = True
    moves: Mapping[str, AdditionStage] = field(default_factory=dict[str, AdditionStage])
    liquids_at: LiquidStage = "trace"
    potassium: bool = False

    @property
    def cooks(self) -> bool:
        """Whether a pot is cooked, and loses water by it."""
        return "cook" in self.stages or "melt" in self.stages

    @property
    def dries(self) -> bool:
        """Whether it makes bars, which lose water through the cure."""
        return self.days.reads_weighings
