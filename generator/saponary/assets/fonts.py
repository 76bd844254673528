"""The fonts of the press: Source Serif and Source Sans, from their PyPI packages.

Both are under the SIL Open Font License, which allows embedding in documents.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files

FONTS_AT = "press-fonts/"
"""Where a sheet's style finds them, from the top of the site; they are not part of the site on disk."""

_PACKAGES = ("font_source_serif_pro", "font_source_sans_pro")


@cache
def font_files() -> Mapping[str, bytes]:
    """Font files by name, such as SourceSerifPro-Regular.ttf."""
    found: dict[str, bytes] = {}
    for package in _PACKAGES:
        for entry in sorted(files(package).joinpath("files").iterdir(), key=lambda e: e.name):
            if entry.name.endswith((".ttf", ".otf")):
                found[entry.name] = entry.read_bytes()
    return found
