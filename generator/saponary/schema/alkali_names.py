"""Names for the two alkalis: `NaOH` and `KOH` stand for sodium and potassium hydroxide wherever one is named."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saponary.reading.plain import is_map
from saponary.schema.fields import problem

_NAMES: Mapping[str, str] = {
    "naoh": "sodium",
    "sodium-hydroxide": "sodium",
    "caustic-soda": "sodium",
    "koh": "potassium",
    "potassium-hydroxide": "potassium",
    "caustic-potash": "potassium",
}


def alkali(name: str) -> str:
    """`sodium` or `potassium` for any name of it; another word as it is."""
    return _NAMES.get(name.casefold().replace(" ", "-"), name)


def by_alkali(value: object) -> object:
    """A map whose keys name alkalis, under `sodium` and `potassium`; `NaOH` alone is all of it."""
    if isinstance(value, str) and alkali(value) in ("sodium", "potassium"):
        return {alkali(value): "100 %"}
    return _renamed(value, alkali)


def by_material(value: object) -> object:
    """A map whose keys name what was weighed, the alkalis under their long names."""
    return _renamed(value, _material)


def _material(name: str) -> str:
    return f"{alkali(name)}-hydroxide" if name.casefold() in ("naoh", "koh") else name


def _renamed(value: object, name: Callable[[str], str]) -> object:
    if not is_map(value):
        return value
    made = dict[str, object]()
    for key, inner in value.items():
        own = name(key)
        if own in made:
            raise problem(f"{own} is given twice, once as {key!r}", "keep one of them")
        made[own] = inner
    return made
