"""What is said of a fault that its key tells more of than its kind: which keys go there, and an example to copy."""

from __future__ import annotations

from collections.abc import Callable

from saponary.reading.plain import is_list
from saponary.reading.tree import Path, shown

_MAPS = frozenset({"dict_type", "model_type", "model_attributes_type"})
_COMMA = 'inside { } a comma parts two keys: put the value in quotes, such as "139,8 g"'
_REASON = "the plant is called self-heal"
_EXAMPLES = {
    "water": "water: {lye-strength: 33 %}",
    "lye": "lye: {sodium: 60 %, potassium: 40 %}, or lye: NaOH",
    "oils": "oils: {total: 1000 g, parts: {olive: 60 %, coconut: 40 %}}",
    "parts": "parts: {olive: 60 %, coconut: 40 %}",
    "fill": "fill: {mould: loaf, to: 95 %}",
    "additions": "[{what: kaolin, amount: 8 g/kg}]",
    "liquids": "[{what: coconut-milk, amount: 25 % of water}]",
    "portions": "[{name: white, share: 60 %}, {name: red, share: 40 %}]",
    "waive": "waive: [{rule: draft, because: this one is for the class}]",
    "loaf": "loaf: {length: 250 mm, width: 90 mm, height: 70 mm}",
    "weighed": "weighed: {0: 121.4 g, 2026-03-16: 115.0 g}",
    "signed": "signed: {lye: 139.8 g}",
}
"""How a map, or a list of maps, is written, by its key."""


_MEASURES = ("length", "width", "height", "diameter", "count", "volume")
_MOULD = "loaf-of-mine: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}"


def by_its_key(kind: str, path: Path, given: object, keys: Callable[[], list[str]]) -> tuple[str, str] | None:
    """The message and the hint, or None where the fault's kind says it all; `keys` are those that may stand there."""
    if kind in _MAPS and (isinstance(given, str) or is_list(given)):
        return keys_needed(path, keys(), given)
    if path[-1:] == ("because",) and kind == "missing":
        return "'because' is missing: a waiver needs your reason", f"add because: {_REASON}"
    if path[-1:] == ("because",) and kind == "string_too_short":
        return "the reason is too short", f"write at least 12 characters, such as because: {_REASON}"
    if kind == "extra_forbidden" and path[:1] == ("moulds",) and path[-1] in _MEASURES:
        return f"{path[-1]!r} stands below the kind of a mould", f"such as {_MOULD}"
    if kind == "extra_forbidden" and given is None and (str(path[-1])[:1].isdigit() or " " in str(path[-1])):
        return f"{shown(path[-1])} stands behind a comma, as a key of its own", _COMMA
    return None


def keys_needed(path: Path, keys: list[str], given: object) -> tuple[str, str]:
    """What is said where a single value or a list stands in place of keys."""
    named = [part for part in path if isinstance(part, str)]
    key = named[-1] if named else "this file"
    example = _EXAMPLES.get(str(key))
    such = f"; example: {example}" if example else ""
    if not keys:
        return f"{key!r} needs a name and a value for each part", f"write name: value{such}"
    wanted = ", ".join(keys[:8]) + (", …" if len(keys) > 8 else "")
    return (
        f"{key!r} needs keys, not {'a list' if isinstance(given, list) else shown(given)}",
        f"its keys are: {wanted}{such}",
    )
