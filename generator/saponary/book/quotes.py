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
from dataclasses import dataclass, replace
from functools import lru_cache
from html import unescape
from typing import NamedTuple

from markdown_it.token import Token

from saponary.book.recipe_file import RecipeFile
from saponary.reading.markdown import parsed
from saponary.reading.published_text import blanked

TEXT_KEYS = frozenset({"title", "summary", "note", "notes", "say", "alt", "text", "keeping"})
"""Keys of the front matter whose text is published and may hold figures."""

PLAIN_KEYS = frozenset({"collection", "vessel", "trace", "lot", "test", "from", "name", "scent"})
"""Keys of the front matter whose text is published as it stands, without figures."""

LEFT_BLANK = "blank "
"""Before a figure's name: a student works it out."""

_BLANK = " \t\r\n"
_BRACES = re.compile(r"(?<!\\)\{([^{}]{1,300})\}")
_EQUALS = re.compile("[=\uff1d]")
"""The sign, and the wide one of some keyboards."""
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


class Uncommented(NamedTuple):
    """Notes as they are published: without what stands in `<!-- … -->`, which is the maker's own, code aside."""

    text: str
    starts: tuple[int, ...]
    """Where each stretch that is left begins in `text`."""
    origins: tuple[int, ...]
    """Where it began in what was written."""

    def origin(self, offset: int) -> int:
        """Where a character of `text` stands in what was written."""
        at = bisect_right(self.starts, offset) - 1
        return self.origins[at] + offset - self.starts[at]


def uncommented(text: str) -> Uncommented:
    """Notes without comments."""
    if "<!--" not in text:
        return Uncommented(text, (0,), (0,))
    spans = _code(text)
    opens = [start for start, _ in spans]
    out, starts, origins, length = list[str](), list[int](), list[int](), 0
    last = at = 0

    def keep(end: int) -> int:
        starts.append(length)
        origins.append(last)
        out.append(text[last:end])
        return length + end - last

    while (comment := _COMMENT.search(text, at)) is not None:
        before = bisect_right(opens, comment.start()) - 1
        if before >= 0 and comment.start() < spans[before][1]:
            at = spans[before][1]
            continue
        length = keep(comment.start())
        last = at = comment.end()
    keep(len(text))
    return Uncommented("".join(out), tuple(starts), tuple(origins))


def without_comments(text: str) -> str:
    """Notes as they are published, without the maker's own comments."""
    return uncommented(text).text


def in_notes(text: str, *, offset: int = 0) -> Iterator[Quote]:
    """Figures of notes as they are published; where they stand is told of what was written."""
    shown = uncommented(text)
    for quote in find(shown.text):
        yield replace(
            quote,
            start=shown.origin(quote.start) + offset,
            end=shown.origin(quote.end - 1) + 1 + offset,
            value_start=offset - 1 if quote.value is None else shown.origin(quote.value_start) + offset,
        )


def find(text: str, *, offset: int = 0, code: bool = True) -> Iterator[Quote]:
    """Figures in a stretch of text; offsets are counted from `offset`."""
    spans = _code(text) if code else ()
    starts = [start for start, _ in spans]
    for match in _BRACES.finditer(text):
        before = bisect_right(starts, match.start()) - 1
        if before >= 0 and match.start() < spans[before][1]:
            continue
        inner = match[1]
        sign = _EQUALS.search(inner)
        if sign is None and not _PLACED.fullmatch(inner):
            continue
        name, equals, said = inner.partition(sign[0]) if sign else (inner, "", "")
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


@lru_cache(maxsize=32)
def _code(text: str) -> tuple[tuple[int, int], ...]:
    """Fenced code, and code spans inside one paragraph, in order."""
    return tuple(_code_in(text))


def _code_in(text: str) -> Iterator[tuple[int, int]]:
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
        found += find(blanked(recipe.text[start:end]), offset=start, code=False)
    found += in_notes(recipe.body, offset=recipe.body_start)
    return sorted(set(found), key=lambda quote: quote.start)


def braces(recipe: RecipeFile) -> int:
    """How many braces the texts open: no fewer than their figures, and quick to count."""
    front = sum(recipe.text.count("{", start, end) for start, end in _front_texts(recipe))
    return front + recipe.text.count("{", recipe.body_start)


def _front_texts(recipe: RecipeFile) -> Iterator[tuple[int, int]]:
    for path, span in recipe.tree.values.items():
        if path and path[-1] in TEXT_KEYS and path[0] != "private":
            yield span.start, span.end


def loose(text: str) -> bool:
    """Whether one run of text publishes a brace as it stands, though a value is in it."""
    bare = list(text.replace("\\{", "  "))
    for quote in find(text, code=False):
        bare[quote.start : quote.end] = " " * (quote.end - quote.start)
    return _LOOSE.search(unescape("".join(bare))) is not None


def loose_in_notes(text: str, *, offset: int = 0) -> Iterator[int]:
    """Such braces of Markdown, as it will be published, code aside. Offsets are those of the line each stands on."""
    shown = uncommented(text)
    bare = list(shown.text.replace("\\{", "  "))
    for quote in find(shown.text):
        for at in range(quote.start, quote.end):
            if bare[at] not in "\r\n":
                bare[at] = "x"
    left = "".join(bare)
    if not _MAY_BE_LOOSE.search(left):
        return
    lines = left.replace("\r\n", " \n").replace("\r", "\n")
    begins = [0, *(match.end() for match in re.finditer("\n", lines))]
    for token in parsed(left):
        words = "".join(_words(child) for child in token.children or ())
        first = token.map[0] if token.map else 0
        for match in _LOOSE.finditer(words):
            line = first + words.count("\n", 0, match.start())
            yield shown.origin(begins[min(line, len(begins) - 1)]) + offset


def _words(token: Token) -> str:
    if token.type == "code_inline":
        return "\n" * token.content.count("\n")
    return "\n" if token.type in ("softbreak", "hardbreak") else token.content


_OPEN, _CLOSE = "{\uff5b\ufe5b\u2774\u2983\u23a8", "}\uff5d\ufe5c\u2775\u2984\u23ac"
"""Braces, and what looks like them."""
_INSIDE = f"[^\n{_OPEN}{_CLOSE}]"
_LOOSE = re.compile(f"[{_OPEN}]{_INSIDE}{{0,600}}?(?:[=\uff1d]|[\\d:\uff1a]{_INSIDE}{{0,300}}?[{_CLOSE}])")
"""A value in braces: after an equals sign, closed or not; a number or a colon in closed ones."""
_MAY_BE_LOOSE = re.compile(f"[{_OPEN}&]")
