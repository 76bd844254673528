"""Figures in running text: placed, `{lye}`, or quoted and checked, `{lye = 138.7 g}`.

`{blank lye}` is a placed figure that a class works out: it is left blank on a student's copy.

Text is scanned as it stands in the file, so that each has its place; code spans and
fenced code are left alone, and a backslash before the brace keeps it as it is. Whatever
stands in braces and has an equals sign is taken for a quoted figure, however it is
misspelt: a number in the text is checked or reported, never passed over.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from saponary.book.library import RecipeFile

TEXT_KEYS = frozenset({"title", "summary", "note", "notes", "say", "alt", "about"})
"""Keys of the front matter whose text is published and may hold figures."""

MAX_FIGURES = 2_000
"""Braces that one recipe's texts may open."""

LEFT_BLANK = "blank "
"""Before a figure's name: a student works it out."""

_BLANK = " \t\r\n"
_BRACES = re.compile(r"(?<!\\)\{([^{}]{1,300})\}")
_QUOTED = re.compile(r"[ \t\r\n]*[A-Za-z][^=]*")
_PLACED = re.compile(r"[ \t\r\n]*[A-Za-z][A-Za-z0-9]*(?:[ \t\r\n_-]+[A-Za-z0-9]+)*[ \t\r\n]*")
_FENCE = re.compile(
    r"^ {0,3}(?P<mark>`{3,}+(?=[^`\n]*$)|~{3,}+)[^\n]*\n.*?(?:^ {0,3}(?P=mark)[`~]*[ \t]*\r?$|\Z)",
    re.DOTALL | re.MULTILINE,
)
_PARAGRAPH_END = re.compile(r"\n[ \t]*\r?\n|\r[ \t]*\r(?!\n)")
_TICKS = re.compile(r"`+")


@dataclass(frozen=True)
class Quote:
    """A figure in the text: its name, the value quoted (None when placed), where each stands, and
    whether a student's copy leaves it blank."""

    name: str
    value: str | None
    start: int
    end: int
    value_start: int
    blank: bool = False


_COMMENT = re.compile(r"<!--.*?(?:-->|\Z)", re.DOTALL)


def without_comments(text: str) -> str:
    """Notes as they are published: what stands in `<!-- … -->` is the maker's own, code aside."""
    spans = list(_code(text))
    starts = [start for start, _ in spans]
    out, last, at = list[str](), 0, 0
    while (comment := _COMMENT.search(text, at)) is not None:
        before = bisect_right(starts, comment.start()) - 1
        if before >= 0 and comment.start() < spans[before][1]:
            at = spans[before][1]
            continue
        out.append(text[last : comment.start()])
        last = at = comment.end()
    return "".join([*out, text[last:]])


def find(text: str, *, offset: int = 0, code: bool = True) -> Iterator[Quote]:
    """Figures in a stretch of text; offsets are counted from `offset`."""
    spans = list(_code(text)) if code else []
    starts = [start for start, _ in spans]
    for match in _BRACES.finditer(text):
        before = bisect_right(starts, match.start()) - 1
        if before >= 0 and match.start() < spans[before][1]:
            continue
        inner = match[1]
        named = _QUOTED.match(inner) if "=" in inner else _PLACED.fullmatch(inner)
        if named is None:
            continue
        name, equals, said = inner.partition("=")
        lead = len(said) - len(said.lstrip(_BLANK))
        tidy = re.sub(r"\s+", " ", name.strip(_BLANK))
        yield Quote(
            tidy.removeprefix(LEFT_BLANK),
            said.strip(_BLANK) if equals else None,
            match.start() + offset,
            match.end() + offset,
            match.start(1) + len(name) + 1 + lead + offset if equals else offset - 1,
            tidy.startswith(LEFT_BLANK),
        )


def _code(text: str) -> Iterator[tuple[int, int]]:
    """Fenced code, and code spans inside one paragraph, in order."""
    last = 0
    for fence in _FENCE.finditer(text):
        yield from _spans(text, last, fence.start())
        yield fence.span()
        last = fence.end()
    yield from _spans(text, last, len(text))


def _spans(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    for stop in [*(m.end() for m in _PARAGRAPH_END.finditer(text, start, end)), end]:
        yield from _spans_of_paragraph(text, start, stop)
        start = stop


def _spans_of_paragraph(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    runs = [run.span() for run in _TICKS.finditer(text, start, end)]
    by_length: dict[int, list[int]] = {}
    for opens, closes in runs:
        by_length.setdefault(closes - opens, []).append(opens)
    done = start
    for opens, closes in runs:
        if opens < done:
            continue
        escaped = opens > start and text[opens - 1] == "\\"
        length = closes - opens - escaped
        same = by_length.get(length, [])
        after = bisect_right(same, opens)
        if length and after < len(same):
            done = same[after] + length
            yield opens + escaped, done


def in_recipe(recipe: RecipeFile) -> list[Quote]:
    """All figures of a recipe file: in the published texts of its front matter, then in its notes."""
    found: list[Quote] = []
    for start, end in _front_texts(recipe):
        found += find(recipe.text[start:end], offset=start, code=False)
    found += find(recipe.body, offset=recipe.body_start)
    return sorted(set(found), key=lambda quote: quote.start)


def braces(recipe: RecipeFile) -> int:
    """How many braces the texts open: no fewer than their figures, and quick to count."""
    front = sum(recipe.text.count("{", start, end) for start, end in _front_texts(recipe))
    return front + recipe.text.count("{", recipe.body_start)


def _front_texts(recipe: RecipeFile) -> Iterator[tuple[int, int]]:
    for path, span in recipe.tree.values.items():
        if path and path[-1] in TEXT_KEYS and path[0] != "private":
            yield span.start, span.end
