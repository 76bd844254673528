"""What a claim's finding tells a maker to write instead: of this recipe's own oils, additions and cure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from saponary.book.computed import Computed

_PLACE = re.compile(r"\{([a-z]+)\}")
_NAMED = 3
"""Ingredients named at most."""
_GENERAL = "say what is in it or how it was made, or leave it out"


def hint(neutral: str, computed: Computed | None) -> str:
    """`neutral` is an entry's way to say it, with places for what a recipe has; None where there is no recipe."""
    if not neutral:
        return "leave it out"
    values: Mapping[str, str] = _values(computed) if computed is not None else {}
    wanted = _PLACE.findall(neutral)
    if any(not values.get(name) for name in wanted):
        return _GENERAL
    said = _PLACE.sub(lambda place: values[place[1]], neutral)
    return f"say what is in it or how it was made, such as: {said}"


def _values(computed: Computed) -> Mapping[str, str]:
    shelf, formula = computed.pantry, computed.resolved.formula
    grams = dict[str, float]()
    for oil in (*formula.oils, *(o for portion in formula.portions for o in portion.oils or ())):
        grams[oil.id] = grams.get(oil.id, 0.0) + oil.grams
    added = list(dict.fromkeys(what for _, what, _ in computed.additions()))
    scents = [what for what in added if what in shelf.fragrances]
    return {
        "oils": _names(sorted(grams, key=lambda name: -grams[name])),
        "additions": _names(what for what in added if what not in scents),
        "scents": _names(scents),
        "liquids": _names(dict.fromkeys(what for _, what, _ in computed.liquids())),
        "superfat": computed.catalogue["superfat"].text() if "superfat" in computed.catalogue else "",
        "cure": str(computed.settings.cure),
    }


def _names(ids: Iterable[str]) -> str:
    """The first few ids as words."""
    return ", ".join(name.replace("-", " ") for name in list(ids)[:_NAMED])
