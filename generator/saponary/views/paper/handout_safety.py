"""The safety page of a class: what is on the jars, in codes and in the words that go with them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from saponary.book.published import Published
from saponary.label.cautions import Caution, for_recipe
from saponary.messages.message import Message, message
from saponary.views.names import charge
from saponary.views.paper.pictograms import CORROSION, EXCLAMATION, Pictogram


class Statement(NamedTuple):
    """A statement by its code; the catalogue has it as Regulation (EC) No 1272/2008 words it."""

    code: str

    @property
    def text(self) -> Message:
        return message(f"statement.{self.code}")


class Jar(NamedTuple):
    """One alkali as its jar must be marked."""

    id: str
    numbers: str
    pictograms: tuple[Pictogram, ...]
    hazards: tuple[Statement, ...]

    @property
    def name(self) -> Message:
        return charge(self.id)


class Safety(NamedTuple):
    jars: tuple[Jar, ...]
    precautions: tuple[Statement, ...]
    own: tuple[Caution, ...]


_METAL, _SWALLOWED, _BURNS, _BLINDS = map(Statement, ("H290", "H302", "H314", "H318"))

SODIUM = Jar("sodium-hydroxide", "CAS 1310-73-2, UN 1823", (CORROSION,), (_METAL, _BURNS, _BLINDS))
POTASSIUM = Jar(
    "potassium-hydroxide",
    "CAS 1310-58-3, UN 1813",
    (CORROSION, EXCLAMATION),
    (_METAL, _SWALLOWED, _BURNS, _BLINDS),
)
"""Codes: for sodium hydroxide as on suppliers' safety data sheets; for potassium hydroxide, from memory."""

PRECAUTIONS = tuple(
    map(
        Statement,
        (
            "P234",
            "P260",
            "P264",
            "P273",
            "P280",
            "P301+P330+P331",
            "P303+P361+P353",
            "P304+P340",
            "P305+P351+P338",
        ),
    )
)

KEYS_BY_ID = {"statement.": tuple(one.code for one in (_METAL, _SWALLOWED, _BURNS, _BLINDS, *PRECAUTIONS))}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def safety(recipes: Sequence[Published]) -> Safety:
    """For the alkalis and the ingredients of these recipes."""
    alkalis = [computed.resolved.formula.alkali for computed in recipes]
    jars = [SODIUM] if any(a.sodium > 0 for a in alkalis) else []
    jars += [POTASSIUM] if any(a.potassium > 0 for a in alkalis) else []
    own = dict.fromkeys(caution for computed in recipes for caution in for_recipe(computed))
    return Safety(tuple(jars), PRECAUTIONS, tuple(own))
