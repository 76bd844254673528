"""From a tree of text to a typed model: every fault at once, each on its line."""

from __future__ import annotations

import re
import types
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from saponary.reading.alike import nearest
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.plain import is_list, is_map
from saponary.reading.published_text import only_seen_in
from saponary.reading.tree import MAX_FAULTS, Path, Tree, placed, shown
from saponary.schema.by_key import by_its_key
from saponary.schema.fields import Part

M = TypeVar("M", bound=BaseModel)

_PLAIN: Mapping[str, tuple[str, str]] = {
    "missing": ("{key!r} is missing", "add {key}: and its value"),
    "string_type": ("a word or text is needed here", "write a single value"),
    "dict_type": ("a map of keys is needed here", "write `key: value` lines, indented"),
    "list_type": ("a list is needed here", "begin each line with a dash, or write [ … ] around it"),
    "model_type": ("a map of keys is needed here", "write `key: value` lines, indented"),
    "model_attributes_type": ("a map of keys is needed here", "write `key: value` lines, indented"),
    "int_parsing": ("a whole number is needed here", "such as 14"),
    "int_parsing_size": ("this number is too long", "such as 14"),
    "int_from_float": ("a whole number is needed here", "such as 14"),
    "int_type": ("a whole number is needed here", "such as 14"),
    "float_parsing": ("a number is needed here", "such as 8 or -6.5"),
    "float_type": ("a number is needed here", "such as 8 or -6.5"),
    "finite_number": ("a finite number is needed here", "such as 8 or -6.5"),
    "bool_parsing": ("true or false is needed here", "write true or false"),
    "bool_type": ("true or false is needed here", "write true or false"),
    "date_from_datetime_parsing": ("a date is needed here", "write it as 2026-03-02"),
    "date_parsing": ("a date is needed here", "write it as 2026-03-02"),
    "date_type": ("a date is needed here", "write it as 2026-03-02"),
    "date_from_datetime_inexact": ("a date without a time is needed here", "write it as 2026-03-02"),
}


def validate(model: type[M], tree: Tree, file: str) -> tuple[M | None, list[Finding]]:
    """Validate a tree; on faults the model is None and every fault is a finding."""
    try:
        made = model.model_validate(only_seen_in(tree.data), strict=False)
        return made, [one for _, one in _blank_keys(tree, file)][:MAX_FAULTS]
    except ValidationError as error:
        every = error.errors(include_url=False)
    faults = [_finding(model, tree, file, fault) for fault in every[:MAX_FAULTS]]
    unknown = {tuple(fault["loc"]) for fault in every if fault["type"] == "extra_forbidden"}
    blanks = [one for path, one in _blank_keys(tree, file) if path not in unknown][:MAX_FAULTS]
    if len(every) > MAX_FAULTS:
        more = f"{len(every) - MAX_FAULTS} more faults are not listed"
        faults.append(Finding("schema", "error", Place(file), more, "correct those listed first"))
    unique: dict[tuple[Place, str], Finding] = {(f.place, f.message): f for f in [*blanks, *faults]}
    return None, list(unique.values())


_FORMS = {
    "at": "an hour from 00:00 to 23:59, such as 09:30",
    "language": "a language tag, such as en or de-AT",
    "base-url": "an address, such as https://soap.example/book",
    "formula": "a fingerprint as the recipe's page shows it: 6 to 64 of the digits 0 to 9 and a to f",
    "currency": "the three capital letters of ISO 4217, such as EUR",
    "id": "small letters, digits and hyphens, such as bath-time",
}
"""What a key's text must look like, in words."""
_COLOURS = frozenset({"fresh", "cured", "colour", "dry", "dry-cured"})
_TO_FILL = ("as-weighed",)
"""The weights that a new batch record leaves to be written in."""


def _blank_keys(tree: Tree, file: str) -> Iterator[tuple[Path, Finding]]:
    """Keys with nothing after them: read as absent, and likely a slip or a colour taken for a comment."""
    stack: list[tuple[Path, Any]] = [((), tree.data)]
    while stack:
        path, value = stack.pop()
        if value is None and path:
            place = tree.place(file, path)
            hint = "give it a value, or leave the key out"
            if path[-1] in _COLOURS:
                hint += "; a colour stands in quotes"
            yield path, Finding("schema", "warning", place, _nothing(path), hint)
        elif is_map(value) and path[-1:] == _TO_FILL and None in value.values():
            place = placed(tree.keys.get(path) or tree.nearest(path), file)
            empty = sum(one is None for one in value.values())
            message = f"{empty} of {len(value)} weights of this batch are not filled in"
            hint = "write what the scale showed, or take those lines out"
            yield path, Finding("schema", "warning", place, message, hint)
        elif is_map(value) and path != ("private",):
            stack += [((*path, key), inner) for key, inner in value.items()]
        elif is_list(value):
            stack += [((*path, index), inner) for index, inner in enumerate(value)]


def _nothing(path: Path) -> str:
    return f"nothing is given for {shown(str(path[-1]))}"


def _finding(model: type[BaseModel], tree: Tree, file: str, fault: Any) -> Finding:
    kind = fault["type"]
    path: Path = tuple(fault["loc"])
    of_key = path[-1:] == ("[key]",) and path not in tree.values
    path = path[:-1] if of_key else path
    place = tree.place(file, path, key=kind == "extra_forbidden" or of_key)
    if kind == "missing":
        place = placed(tree.keys.get(path[:-1]) or tree.nearest(path[:-1]), file)
    message, hint = _told(model, path, fault)
    return Finding("schema", "error", place, message, hint)


def _told(model: type[BaseModel], path: Path, fault: Any) -> tuple[str, str]:
    """What is wrong with the value at `path`, and what was expected."""
    kind, context, given = fault["type"], fault.get("ctx", {}), fault["input"]
    if kind == "saponary":
        return context["message"], context["hint"]
    own = by_its_key(kind, path, given, lambda: known_keys(model, path))
    if own is not None:
        return own
    if kind == "extra_forbidden":
        return f"unknown key {shown(path[-1])}", suggest(str(path[-1]), known_keys(model, path[:-1]), "keys")
    if kind == "literal_error":
        expected = context["expected"]
        close = nearest(str(given), re.findall(r"'([^']+)'", expected))
        hint = f"expected {expected}" if close is None else f"did you mean {close!r}? expected {expected}"
        return f"{shown(given)} is not one of the words known here", hint
    if kind == "string_pattern_mismatch":
        form = _FORMS.get(str(path[-1]) if path else "", "the form " + context["pattern"])
        return f"{shown(given)} does not have the right form", f"expected {form}"
    if kind in _PLAIN:
        message, hint = _PLAIN[kind]
        if given is None and kind != "missing":
            return _nothing(path) if path else "this file is empty", hint
        key = str(path[-1])[:60] if path else "a value"
        return message.format(key=key), hint.replace("{key}", key)
    return _out_of_bounds(kind, context, given) or (fault["msg"], "see `saponary schema`")


def _out_of_bounds(kind: str, context: Any, given: object) -> tuple[str, str] | None:
    """What is said of a length or a number beyond its bound; None where the fault is another."""
    of = "characters" if kind.startswith("string") else "entries"
    if kind in ("too_short", "string_too_short"):
        return "this is too short or empty", f"at least {context.get('min_length', 1)} {of} needed"
    if kind in ("too_long", "string_too_long"):
        return "this is too long", f"at most {context.get('max_length')} {of} allowed"
    if kind in ("greater_than_equal", "less_than_equal", "greater_than", "less_than"):
        bound = next(v for k, v in context.items() if k in ("ge", "le", "gt", "lt"))
        word = "at least" if kind.startswith("greater") else "at most"
        return f"{shown(given)} is out of range", f"{word} {bound}"
    return None


def known_keys(model: type[BaseModel], path: Path) -> list[str]:
    """The keys a map at `path` may have, by walking the model's annotations."""
    kind: Any = model
    for part in path:
        kind = _step(kind, part)
        if kind is None:
            return []
    found = _model(kind)
    return [f.alias or name for name, f in found.model_fields.items()] if found else []


def _unwrap(kind: Any) -> list[Any]:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return [inner for arg in get_args(kind) for inner in _unwrap(arg)]
    if origin is not None and hasattr(kind, "__metadata__"):
        return _unwrap(get_args(kind)[0])
    return [kind]


def _model(kind: Any) -> type[Part] | None:
    return next((k for k in _unwrap(kind) if isinstance(k, type) and issubclass(k, Part)), None)


def _step(kind: Any, part: str | int) -> Any:
    model = _model(kind)
    if model is not None:
        for name, info in model.model_fields.items():
            if (info.alias or name) == part:
                return info.annotation
        return None
    for inner in _unwrap(kind):
        if get_origin(inner) is dict:
            return get_args(inner)[1]
        if get_origin(inner) is list:
            return get_args(inner)[0]
    return None
