"""YAML as it is written for a maker's book."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import yaml

from saponary.quantity.rounding import as_decimal

_FLOW = 88
"""A map of plain values is written on one line where it is no longer than this."""


def amount(value: float, unit: str) -> str:
    """A number in plain decimals with its unit, finer than was ever written."""
    return f"{as_decimal(value, 12)} {unit}".strip()


def to_yaml(value: Mapping[str, object]) -> str:
    """YAML that reads back as the same, text quoted where it must be, short maps on one line."""
    # Stubs of late November 2026 leave the type of `width` unknown.
    return yaml.dump(  # pyright: ignore[reportUnknownMemberType]
        dict(value), Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=110
    )


class _Dumper(yaml.SafeDumper):
    """Writes lists indented under their key, and no anchors."""

    def ignore_aliases(self, data: Any) -> bool:
        return True

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        super().increase_indent(flow, False)

    def represent_map(self, data: dict[Any, Any]) -> yaml.Node:
        node = self.represent_mapping("tag:yaml.org,2002:map", list(data.items()))
        flat = all(not isinstance(v, (dict, list)) for v in data.values())
        node.flow_style = flat and sum(len(f"{k}: {v}, ") for k, v in data.items()) <= _FLOW
        return node

    def represent_row(self, data: list[Any]) -> yaml.Node:
        node = self.represent_sequence("tag:yaml.org,2002:seq", data)
        flat = all(not isinstance(v, (dict, list)) for v in data)
        node.flow_style = flat and sum(len(f"{v}, ") for v in data) <= _FLOW
        return node


_Dumper.add_representer(dict, _Dumper.represent_map)
_Dumper.add_representer(list, _Dumper.represent_row)
