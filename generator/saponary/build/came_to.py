"""What a recipe came to at one revision: plain data, as it is kept and read again.

Imports little, so that two sides whose figures are kept are compared without reading what computes them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from saponary.book.figure import Figure


@dataclass(frozen=True)
class CameTo:
    """What a recipe came to. `figures` are values in the engine's units by name, empty where it cannot be
    computed: `faults` then say why. `cost` is in the book's own currency, None where nothing has a price."""

    title: str
    status: str
    fingerprint: str
    figures: Mapping[str, Figure]
    signed: Mapping[str, str]
    order: tuple[str, ...]
    cost: float | None
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Drifted:
    """A figure that a recipe signed, and that today's engine and tables no longer give for that recipe."""

    recipe: str
    name: str
    signed: str
    today: str


def as_bytes(one: CameTo) -> bytes:
    """What is kept of it."""
    return json.dumps(asdict(one)).encode()


def read(kept: bytes) -> CameTo:
    """What was kept."""
    found: dict[str, Any] = json.loads(kept)
    figures = {name: Figure(**figure) for name, figure in found.pop("figures").items()}
    order, faults = tuple(found.pop("order")), tuple(found.pop("faults"))
    return CameTo(**found, figures=figures, order=order, faults=faults)
