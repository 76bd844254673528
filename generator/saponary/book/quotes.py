"""Figures in running text: placed, `{lye}`, or quoted and checked, `{lye = 138.7 g}`.

Text is scanned as it stands in the file, so that each has its place; code spans and
fenced code are left alone, and a backslash before the brace keeps it as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from saponary.book.library import RecipeFile

TEXT_KEYS = frozenset({"title", "summary", "note", "notes", "say", "alt", "about"})
"""Keys of the front matter whose text is published and may hold figures."""

FIGURE = re.compile(
    r"(?<!\\)\{[ \t]*(?P<name>[a-z][a-z0-9]*(?:[ \t\r\n-]+[a-z0-9]+)*)[ \t\r\n]*(?:=[ \t\r\n]*(?P<value>[^{}=]{0,60}?)[ \t\r\n]*)?\}"
)
_CODE = re.compile(
    r"(?P<fence>^ {0,3}(?P<mark>`{3,}|~{3,})[^\n]*\n.*?(?:^ {0,3}(?P=mark)[`~]*[ \t]*\r?$|\Z))|(?P<span>(?<!`)(?P<ticks>`+)(?!`).{0,2000}?(?<!`)(?P=ticks)(?!`))",
    re.DOTALL | re.MULTILINE,
)


@dataclass(frozen=True)
class Quote:
    """A figure in the text: its name, the value quoted ('' when placed), and where each stands."""

    name: str
    value: str | None
    start: int
    end: int
    value_start: int


def find(text: str, *, offset: int = 0, code: bool = True) -> Iterator[Quote]:
    """Figures in a stretch of text; offsets are counted from `offset`."""
    spans = [m.span() for m in _CODE.finditer(text)] if code else []
    for match in FIGURE.finditer(text):
        if any(start <= match.start() < end for start, end in spans):
            continue
        name = re.sub(r"\s+", " ", match["name"])
        yield Quote(
            name, match["value"], match.start() + offset, match.end() + offset, match.start("value") + offset
        )


def in_recipe(recipe: RecipeFile) -> list[Quote]:
    """All figures of a recipe file: in the published texts of its front matter, then in its notes."""
    found: list[Quote] = []
    for path, span in recipe.tree.values.items():
        if path and path[-1] in TEXT_KEYS and path[0] != "private":
            found += find(recipe.text[span.start : span.end], offset=span.start, code=False)
    found += find(recipe.body, offset=recipe.body_start)
    return sorted(set(found), key=lambda quote: quote.start)
