"""What a maker's own template says in words: its tags and instructions blanked out, every character in its place.

Kept are texts between tags, values of attributes that are shown or read aloud, and texts in quotes inside
an instruction.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from saponary.reading.findings import Place
from saponary.reading.published_text import Said

_MARK = re.compile(
    r"(?P<unseen>\{#.*?#\}|<!--.*?-->|<(?P<tag>script|style)\b.*?</(?P=tag)\s*>)"
    r"|(?P<instruction>\{\{.*?\}\}|\{%.*?%\})"
    r"|(?P<element><[^<>]{1,2000}>)",
    re.DOTALL | re.IGNORECASE,
)
_QUOTED = re.compile(r"\"([^\"\n]*)\"|'([^'\n]*)'")
_SHOWN = re.compile(
    r"\b(?:alt|title|content|aria-label|placeholder)\s*=\s*(?:\"([^\"]*)\"|'([^']*)')", re.IGNORECASE
)
_BLANK = re.compile(r"[^\n]")


def template_text(text: str, file: str) -> Said:
    """The words of one template; `file` is its path in the book."""
    starts = [0, *(found.end() for found in re.finditer("\n", text))]

    def at(offset: int) -> Place:
        line = bisect_right(starts, offset)
        return Place(file, line, offset - starts[line - 1] + 1)

    return Said(_MARK.sub(_without, text), Place(file), at)


def _without(mark: re.Match[str]) -> str:
    """A mark as so many blanks, but for the words that are shown."""
    whole = mark[0]
    out = list(_BLANK.sub(" ", whole))
    if mark["element"]:
        _keep(_SHOWN, whole, out)
        if len(out) >= len("<p>") and not _inline(whole):
            out[0] = out[1] = "\n"
    elif mark["instruction"]:
        _keep(_QUOTED, whole, out)
    return "".join(out)


def _keep(pattern: re.Pattern[str], whole: str, out: list[str]) -> None:
    for found in pattern.finditer(whole):
        group = 1 if found[1] is not None else 2
        out[found.start(group) : found.end(group)] = found[group]


def _inline(element: str) -> bool:
    name = re.match(r"</?([a-z0-9]+)", element, re.IGNORECASE)
    return name is not None and name[1].lower() in {
        "a",
        "b",
        "em",
        "i",
        "span",
        "strong",
        "small",
        "sub",
        "sup",
    }
