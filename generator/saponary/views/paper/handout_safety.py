"""The safety page of a class: what is on the jars, in codes and in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.label.cautions import Caution, for_recipe
from saponary.views.paper.pictograms import CORROSION, EXCLAMATION, Pictogram


@dataclass(frozen=True)
class Statement:
    """A statement's code, and what it says in this book's own words."""

    code: str
    text: str


@dataclass(frozen=True)
class Jar:
    """One alkali as its jar must be marked."""

    name: str
    numbers: str
    signal: str
    pictograms: tuple[Pictogram, ...]
    hazards: tuple[Statement, ...]


@dataclass(frozen=True)
class Safety:
    jars: tuple[Jar, ...]
    precautions: tuple[Statement, ...]
    own: tuple[Caution, ...]
    source: str


_METAL = Statement("H290", "It can eat metals away.")
_SWALLOWED = Statement("H302", "It harms whoever swallows it.")
_BURNS = Statement("H314", "It burns skin deeply and injures eyes.")
_BLINDS = Statement("H318", "It can take the sight of an eye.")

SODIUM = Jar("Sodium hydroxide", "CAS 1310-73-2, UN 1823", "Danger", (CORROSION,), (_METAL, _BURNS, _BLINDS))
POTASSIUM = Jar(
    "Potassium hydroxide",
    "CAS 1310-58-3, UN 1813",
    "Danger",
    (CORROSION, EXCLAMATION),
    (_METAL, _SWALLOWED, _BURNS, _BLINDS),
)

PRECAUTIONS = (
    Statement("P234", "Leave it in the jar it came in."),
    Statement("P260", "Breathe in neither its dust nor its mist."),
    Statement("P264", "Wash hands and arms well afterwards."),
    Statement("P273", "Let none of it get into drains, ponds or streams."),
    Statement("P280", "Wear gloves, covering clothes, and goggles or a face shield."),
    Statement("P301+P330+P331", "Swallowed: rinse the mouth, bring on no vomiting."),
    Statement("P303+P361+P353", "On skin or hair: strip off what is wet with it at once, and rinse under running water."),
    Statement("P304+P340", "Breathed in: bring the person into fresh air and let them rest so that they breathe easily."),
    Statement("P305+P351+P338", "In an eye: rinse gently for many minutes, take lenses out if that is easy, rinse on."),
)  # fmt: skip

SOURCE = (
    "Codes: for sodium hydroxide as on suppliers' safety data sheets; for potassium hydroxide, and for the pictograms, "
    "from memory. The label and the safety data sheet of your own jar go before this page."
)


def safety(recipes: Sequence[Computed]) -> Safety:
    """For the alkalis and the ingredients of these recipes."""
    alkalis = [computed.resolved.formula.alkali for computed in recipes]
    jars = [SODIUM] if any(a.sodium > 0 for a in alkalis) else []
    jars += [POTASSIUM] if any(a.potassium > 0 for a in alkalis) else []
    own = dict.fromkeys(caution for computed in recipes for caution in for_recipe(computed))
    return Safety(tuple(jars), PRECAUTIONS, tuple(own), SOURCE)
