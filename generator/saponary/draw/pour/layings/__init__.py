"""The laying patterns, one module each, by the step of a pour that asks for them."""

from __future__ import annotations

from collections.abc import Mapping

from saponary.draw.pour.laying import Pattern
from saponary.draw.pour.layings import beds, columns, plops

PATTERNS: Mapping[str, Pattern] = {
    "beds": beds.bed,
    "columns": columns.columns,
    "plops": plops.plops,
}
