"""Columns of a sheet that end where they come out alike.

An element with `data-columns` is set in so many columns, each about `data-letters` letters wide. WeasyPrint
balances columns by laying them out again and again, a little higher each time: that was nine tenths of the
work on a sheet. Here the heights are estimated from the letters. No block is torn, and a heading stays with
what follows it.

In a part that is to fit its pages (`pdf_fit.py`) each column becomes an element of its own, with the class
`column`, for WeasyPrint lays out what stands in columns of its own at least twice. Elsewhere, and at a part's last step,
columns may go on over pages: there the class `next-column` marks what begins one.

Where there is room the type is larger, to be read at arm's length: `data-scales` are the sizes to try, in parts
of the usual one and the largest first, and `data-lines` how many lines of the usual size a column has room for.
Blocks of the class that `data-without` names are left out at the steps of `data-without-at`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise
from math import ceil, inf
from typing import Any, NamedTuple

_HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})
_FLOWING = frozenset({"div", "section", "article", "ul", "ol", "dl", "details", "aside"})
_GAP = 0.3
"""Between two blocks, in lines."""
_ITEM_GAP = 0.1
_ROW = 1.45
"""A row of a table with its rule, in lines."""
_NOTE = 0.85
_LETTER = 0.47
"""The width of a letter on average, in parts of the size of its type."""
_LEADING = 1.27


class Block(NamedTuple):
    """What is not torn: its height in lines, and whether a column may begin with it."""

    height: float
    may_begin: bool = True


def set_columns(root: Any) -> None:
    """Part the columns in a tree of HTML."""
    parents = {child: parent for parent in root.iter() for child in parent}
    for columns in list(root.iter()):
        if columns.get("data-columns") is None:
            continue
        part = _part_of(columns, parents)
        step = None if part is None else part.get("data-step")
        if step is not None and step in (columns.get("data-without-at") or "").split():
            _leave_out(columns, columns.get("data-without"), parents)
        found = list(_blocks(columns))
        scale, begins = _set_out(columns, found, step)
        if scale != 1.0:
            columns.set("style", f"font-size: {scale}em")
        for begin in begins:
            _begin(found[begin], columns, parents)
        if part is not None and step != part.get("data-steps"):
            _as_elements(columns)


def _part_of(element: Any, parents: dict[Any, Any]) -> Any | None:
    """The part that an element lies in, of those that are to fit their pages."""
    while element is not None and element.get("data-pages") is None:
        element = parents.get(element)
    return element


def _leave_out(columns: Any, name: str, parents: dict[Any, Any]) -> None:
    for one in [one for one in columns.iter() if _is(one, name)]:
        parents[one].remove(one)


def _as_elements(columns: Any) -> None:
    """Make an element of each column, of the kind of that which holds them."""
    made: list[Any] = []
    for child in list(columns):
        if not made or _is(child, "next-column"):
            made.append(columns.makeelement(columns.tag, {"class": "column"}))
        columns.remove(child)
        made[-1].append(child)
    columns.extend(made)
    columns.set("data-parted", columns.attrib.pop("data-columns"))


def _set_out(columns: Any, found: Sequence[Any], step: str | None) -> tuple[float, tuple[int, ...]]:
    """At which size the blocks are set, and which of them begin a column."""
    letters, count = float(columns.get("data-letters")), int(columns.get("data-columns"))
    room = float(columns.get("data-lines") or 0)
    for scale in map(float, (columns.get("data-scales") or "").split() if step is None else ()):
        blocks = _measured(found, letters / scale)
        begins = balanced(blocks, count)
        if _highest(blocks, begins) * scale <= room:
            return scale, begins
    return 1.0, balanced(_measured(found, letters), count)


def _measured(found: Sequence[Any], letters: float) -> list[Block]:
    before = [None, *found][: len(found)]
    return [
        Block(_height(one, letters), last is None or not _stays_with_next(last))
        for one, last in zip(found, before, strict=True)
    ]


def _highest(blocks: Sequence[Block], begins: Sequence[int]) -> float:
    """The height of the highest column."""
    ends = [0, *begins, len(blocks)]
    return max(sum(block.height for block in blocks[at:to]) for at, to in pairwise(ends))


def balanced(blocks: Sequence[Block], count: int) -> tuple[int, ...]:
    """Which blocks begin a column after the first, so that the highest of `count` columns is as low as can be;
    of equals, that with the fullest first columns.
    """
    heights = [0.0]
    for block in blocks:
        heights.append(heights[-1] + block.height)

    @cache
    def best(start: int, columns: int) -> tuple[float, tuple[int, ...]]:
        rest = heights[-1] - heights[start]
        if columns == 1:
            return rest, ()
        found: tuple[float, tuple[int, ...]] = (rest, ())
        for at in range(start + 1, len(blocks)):
            first = heights[at] - heights[start]
            if first > found[0]:
                break
            if blocks[at].may_begin:
                beyond, breaks = best(at, columns - 1)
                if max(first, beyond) <= found[0]:
                    found = max(first, beyond), (at, *breaks)
        return found

    return best(0, count)[1] if blocks and heights[-1] < inf else ()


def _begin(block: Any, columns: Any, parents: dict[Any, Any]) -> None:
    """Let a column begin with a block, by a class. What lies round it is parted there: WeasyPrint would stretch
    a box that goes on in the next column down to the end of the page.
    """
    while (outer := parents[block]) is not columns:
        at = list(outer).index(block)
        block = _parted(outer, at, parents) if at else outer
    block.set("class", f"{block.get('class') or ''} next-column".strip())


def _parted(element: Any, at: int, parents: dict[Any, Any]) -> Any:
    """A second element after this one, which takes its children from `at` on."""
    rest = element.makeelement(element.tag, {k: v for k, v in element.attrib.items() if k != "id"})
    if element.tag == "ol":
        rest.set("style", f"counter-reset: list-item {at}")
    for child in list(element)[at:]:
        element.remove(child)
        rest.append(child)
        parents[child] = rest
    above = parents[element]
    above.insert(list(above).index(element) + 1, rest)
    parents[rest] = above
    return rest


def _blocks(element: Any) -> Iterator[Any]:
    for child in element:
        if child.tag in _FLOWING and element.tag != "dl" and not _is(child, "whole"):
            yield from _blocks(child)
        else:
            yield child


def _stays_with_next(element: Any) -> bool:
    return element.tag in _HEADINGS or _is(element, "lead")


def _is(element: Any, name: str) -> bool:
    return name in (element.get("class") or "").split()


def _height(element: Any, letters: float) -> float:
    """Of a block, in lines of running text."""
    tag = element.tag
    if tag == "table":
        rows = (row for row in element.iter("tr"))
        return sum(_row(row) for row in rows) + _GAP
    if tag.endswith("svg"):
        return _picture(element, letters)
    if tag in _HEADINGS:
        return 1.35 * ceil(_letters(element) / (0.8 * letters)) + 1.1
    inner = [child for child in element if child.tag in {*_FLOWING, "table", "p", "li", "dt", "dd"}]
    if not inner:
        return ceil(_letters(element) / letters) + (_ITEM_GAP if tag == "li" else _GAP)
    if element.tag == "div" and any(_is(each, "value") for each in inner):
        notes = sum(ceil(_letters(each) / (1.1 * letters)) for each in inner if _is(each, "note"))
        return 1.4 + _NOTE * notes
    if inner[0].tag == "dt":
        return ceil(_letters(element) / letters) + _GAP
    return sum(_height(child, letters) for child in inner)


def _row(row: Any) -> float:
    notes = sum(1 for each in row.iter("span") if _is(each, "note"))
    return _ROW + 0.8 * notes


def _picture(element: Any, letters: float) -> float:
    """A picture as wide as its column."""
    numbers = [float(number) for number in re.findall(r"[\d.]+", element.get("viewBox") or "")]
    if len(numbers) != 4 or not numbers[2]:
        return 0.0
    return letters * _LETTER * numbers[3] / numbers[2] / _LEADING


def _letters(element: Any) -> int:
    return len(" ".join("".join(element.itertext()).split()))
