"""Finds what travels with the package: the standard templates and the starter recipes.

In a wheel they lie inside the package; in a source tree, and so in an editable install,
they lie at its top.
"""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def templates() -> Path:
    """The folder of the standard templates."""
    return _find("templates")


def starters() -> Path:
    """The folder of the starter recipes."""
    return _find("recipes")


def _find(name: str) -> Path:
    packaged = _PACKAGE / f"_{name}"
    source = _PACKAGE.parents[1] / name
    for folder in (packaged, source):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"this installation lacks its {name}: install it again")
