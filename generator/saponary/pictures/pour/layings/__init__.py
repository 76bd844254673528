"""The laying patterns, one module each; a pattern belongs to the book by being here."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

for _module in sorted(module.name for module in iter_modules(__path__)):
    import_module(f"{__name__}.{_module}")
