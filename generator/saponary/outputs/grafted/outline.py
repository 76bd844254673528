"""The outline of a PDF, out of marks in the order of the pages."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import pydyf


@dataclass
class Line:
    """A line of the outline, with those below it. `place` is a destination in PDF's syntax."""

    level: int
    title: str
    place: bytes
    below: list[Line] = field(default_factory=lambda: list[Line]())


def nested(lines: Iterable[Line]) -> list[Line]:
    """Each line below the last before it that has a lower level."""
    top: list[Line] = []
    above: list[Line] = []
    for line in lines:
        while above and above[-1].level >= line.level:
            above.pop()
        (above[-1].below if above else top).append(line)
        above.append(line)
    return top


def add_outline(pdf: Any, lines: Iterable[Line]) -> None:
    """Add the outline to a file, all of it open. None where there are no lines."""
    top = nested(lines)
    if not top:
        return
    root: Any = pydyf.Dictionary({"Type": "/Outlines"})
    pdf.add_object(root)
    root["Count"] = _add(pdf, top, root)
    pdf.catalog["Outlines"] = root.reference


def _add(pdf: Any, lines: list[Line], above: Any) -> int:
    """Add lines below another; how many are seen of them."""
    seen = len(lines)
    made: list[Any] = [
        pydyf.Dictionary({"Title": pydyf.String(line.title), "Dest": line.place}) for line in lines
    ]
    for one, line in zip(made, lines, strict=True):
        pdf.add_object(one)
        one["Parent"] = above.reference
        if line.below:
            below = _add(pdf, line.below, one)
            one["Count"] = below
            seen += below
    for one, following in pairwise(made):
        one["Next"] = following.reference
        following["Prev"] = one.reference
    above["First"], above["Last"] = made[0].reference, made[-1].reference
    return seen
