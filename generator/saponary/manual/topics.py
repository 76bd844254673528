"""The topics of the manual: one Markdown file each in `tables/manual/`, in the order of their names."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import NamedTuple

_FENCE = re.compile(r"^```(?P<kind>[a-z-]+)(?: (?P<name>[a-z0-9-]+))?\n(?P<text>.*?)^```$", re.M | re.S)
_FILE = re.compile(r"\d\d-(?P<slug>[a-z-]+)\.md")


class Fence(NamedTuple):
    """A block of a topic that is no prose: its kind, its name where it has one, and its text."""

    kind: str
    name: str
    text: str


class Topic(NamedTuple):
    """`slug` is what a maker asks for; `text` is the whole file."""

    slug: str
    title: str
    text: str

    def parts(self) -> Iterator[str | Fence]:
        """Prose and blocks, in their order, without the title."""
        body = self.text.partition("\n")[2]
        done = 0
        for found in _FENCE.finditer(body):
            if body[done : found.start()].strip():
                yield body[done : found.start()]
            yield Fence(found["kind"], found["name"] or "", found["text"])
            done = found.end()
        if body[done:].strip():
            yield body[done:]

    def fences(self) -> tuple[Fence, ...]:
        return tuple(part for part in self.parts() if isinstance(part, Fence))


@cache
def topics() -> tuple[Topic, ...]:
    """Every topic, in the order to read them in."""
    found: list[Topic] = []
    for entry in sorted(files("saponary.tables.manual").iterdir(), key=lambda one: one.name):
        name = _FILE.fullmatch(entry.name)
        if name is not None:
            text = entry.read_text(encoding="utf-8")
            found.append(Topic(name["slug"], text.partition("\n")[0].removeprefix("# "), text))
    return tuple(found)


def topic(slug: str) -> Topic | None:
    """The topic of this name."""
    return next((one for one in topics() if one.slug == slug), None)
