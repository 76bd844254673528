"""The page kinds: one module each, registered by being there.

Every module of this package that has a `KIND` brings its sheets to the site.
"""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from saponary.pages.kind import PageKind


@cache
def kinds() -> tuple[PageKind, ...]:
    """All page kinds, by name."""
    found = [import_module(f"{__name__}.{module.name}").KIND for module in pkgutil.iter_modules(__path__)]
    return tuple(sorted(found, key=lambda kind: kind.name))
