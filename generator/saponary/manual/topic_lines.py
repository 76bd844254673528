"""A topic as lines of text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import indent, wrap

from saponary.manual.colour_variables import colour_variables, standard_style
from saponary.manual.topics import Fence, Topic

WIDTH = 88


def topic_lines(topic: Topic) -> Iterator[str]:
    """A topic as it is written, with its blocks set in."""
    yield topic.title
    yield "=" * len(topic.title)
    for part in topic.parts():
        yield ""
        if isinstance(part, Fence) and part.kind == "variables":
            yield from (f"    {name}: {value}" for name, value in colour_variables(standard_style()))
        elif isinstance(part, Fence):
            yield indent(part.text.rstrip("\n"), "    ")
        else:
            yield from _prose(part.strip("\n"))


def _prose(text: str) -> Iterator[str]:
    """Paragraphs filled to the width; tables, lists and headings line by line."""
    for line in text.split("\n"):
        kept = line.startswith(("|", "#")) or not line.strip()
        yield from [line] if kept else filled(line, WIDTH, "  " if line[:2] == "- " else "")


def filled(text: str, width: int, hang: str = "") -> list[str]:
    """Lines of at most a width; no word is parted, for many are names to be written."""
    return wrap(text, width, subsequent_indent=hang, break_on_hyphens=False, break_long_words=False)
