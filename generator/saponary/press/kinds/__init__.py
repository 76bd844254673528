"""The kinds of PDF: one module each, registered by being there."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from saponary.press.kind import PressKind


@cache
def kinds() -> tuple[PressKind, ...]:
    """All kinds of PDF, by name."""
    found = [import_module(f"{__name__}.{module.name}").KIND for module in pkgutil.iter_modules(__path__)]
    return tuple(sorted(found, key=lambda kind: kind.name))
