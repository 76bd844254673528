"""What a value looks like, in words, read off its JSON Schema."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from saponary.quantity.rounding import as_decimal
from saponary.reading.names import NAME_PATTERN

Node = Mapping[str, Any]

_KEYS = "keys of its own"

_BY_PATTERN = {
    "^#[0-9a-fA-F]{6}$": 'a colour in quotes, such as "#a4503c"',
    NAME_PATTERN: "a name: small letters, digits and hyphens",
    "^[0-9a-f]{6,64}$": "a fingerprint",
    "^https?://[^\\s]+$": "an address that begins with https://",
    "^(?:[01][0-9]|2[0-3]):[0-5][0-9]$": 'an hour in quotes, such as "09:30"',
    "^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$": "a language tag, such as en",
}


def resolved(node: Node, definitions: Node) -> Node:
    """A node, or the definition that it refers to."""
    while "$ref" in node:
        node = definitions[str(node["$ref"]).rpartition("/")[2]]
    return node


def alternatives(node: Node, definitions: Node) -> Iterator[Node]:
    """The forms a value may have, one by one, without the empty one."""
    if "anyOf" in node:
        for one in node["anyOf"]:
            yield from alternatives(one, definitions)
        return
    node = resolved(node, definitions)
    if "anyOf" in node:
        yield from alternatives(node, definitions)
    elif node.get("type") != "null":
        yield node


def words_of(node: Node, definitions: Node) -> tuple[str, ...]:
    """The words of an enumeration, of the value itself or of a list's entries."""
    found: list[str] = []
    for one in alternatives(node, definitions):
        found += [str(word) for word in one.get("enum", ())]
        found += [str(one["const"])] if "const" in one else []
        if one.get("type") == "array":
            found += words_of(one["items"], definitions)
    return tuple(dict.fromkeys(found))


def form(node: Node, definitions: Node) -> str:
    """Such as `per cent or a fraction`, `one of bar, paste`, `a list`."""
    told = [_told(one, definitions) for one in alternatives(node, definitions)]
    return ", or ".join(dict.fromkeys(one for one in told if one))


def _told(node: Node, definitions: Node) -> str:
    if "enum" in node:
        return "one of " + ", ".join(map(str, node["enum"]))
    if "const" in node:
        return str(node["const"])
    if node.get("pattern") in _BY_PATTERN:
        return _BY_PATTERN[str(node["pattern"])]
    if node.get("format") == "date":
        return "a day, such as 2026-03-02"
    kind = node.get("type")
    if kind == "array":
        return _list(node, definitions)
    if kind == "object":
        return _KEYS if "properties" in node else "a value for each name"
    if kind in ("integer", "number"):
        return _number(node)
    if kind == "boolean":
        return "true or false"
    return str(node.get("x-form") or node.get("description") or ("text" if kind == "string" else "anything"))


def _list(node: Node, definitions: Node) -> str:
    inner = form(node.get("items", {}), definitions)
    least, most = node.get("minItems"), node.get("maxItems")
    if least is not None and least == most:
        return f"a list of {least}: {inner}"
    return f"a list: {inner}" if inner != _KEYS else "a list of entries with keys of their own"


def _number(node: Node) -> str:
    whole = "a whole number" if node["type"] == "integer" else "a number"
    low, high = node.get("minimum"), node.get("maximum")
    return (
        whole
        if low is None or high is None
        else f"{whole} from {as_decimal(low, 6)} to {as_decimal(high, 6)}"
    )
