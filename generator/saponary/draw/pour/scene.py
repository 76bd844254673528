"""What a pour drawing is made from: the portions, the face that is looked at, and the steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from saponary.schema.methods.method import Top, Vessel
from saponary.schema.pour import PourStep

When = Literal["fresh", "cured"]


class Shade(NamedTuple):
    """The colour of a batter on the day it is poured and after the cure, as #rrggbb."""

    fresh: str
    cured: str

    def at(self, when: When) -> str:
        return self.fresh if when == "fresh" else self.cured


class DrawnPortion(NamedTuple):
    """A portion of the batter; the volume shares of a scene sum to one."""

    name: str
    volume_share: float
    shade: Shade


@dataclass(frozen=True)
class DrawnExtra:
    """What dresses the pour: the powder of a pencil line, an embed, or what is sprinkled on top."""

    id: str
    name: str
    shade: Shade
    face: Scene | None = None
    """Of an embed that was cut from another soap: the face of that soap."""


@dataclass(frozen=True)
class Face:
    """The face that is drawn, in millimetres.

    A loaf and a slab show the cut face of a bar, or with `top_view` the mould from above;
    a round shows the cut face of a cylinder, whose diameters are the width and the height.
    """

    kind: Literal["loaf", "slab", "round"]
    width_mm: float
    height_mm: float
    top_view: bool = False


@dataclass(frozen=True)
class Scene:
    """A whole pour. Portions that no step lays are drawn as flat beds on top of the rest."""

    title: str
    portions: tuple[DrawnPortion, ...]
    extras: tuple[DrawnExtra, ...]
    face: Face
    steps: tuple[PourStep, ...]
    top: Top = "flat"
    """The top where no step shapes it."""
    vessel: Vessel = "mould"
    level: float = 1.0
    """How full a jar or bottle is, as a share of all that it holds."""

    def __post_init__(self) -> None:
        if not any(portion.volume_share > 0 for portion in self.portions):
            raise ValueError("a scene needs at least one portion with a volume")
        if not (self.face.width_mm > 0 and self.face.height_mm > 0):
            raise ValueError("a face needs a width and a height")
