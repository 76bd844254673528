"""The colours that a style sheet of a maker's own may set anew, read off the standard one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.assets import resources

_VARIABLE = re.compile(r"^  (--[a-z-]+): (#[^;]+);", re.MULTILINE)


def colour_variables(style: str) -> Iterator[tuple[str, str]]:
    """Each variable with its value by daylight, once."""
    return iter(_VARIABLE.findall(style.partition("@media")[0]))


def standard_style() -> str:
    """The first of the standard style sheets, which holds the variables."""
    sheets = sorted((resources.templates() / "style").glob("*.css"))
    return "".join(sheet.read_text(encoding="utf-8") for sheet in sheets)
