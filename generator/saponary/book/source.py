"""YAML read with every value's place kept, and bounded against hostile files.

The tree is built here from libyaml's events, so that nothing is resolved to a number,
date or truth value before the schema asks for one, duplicate keys are seen, and size,
depth and aliases are limited before anything is expanded.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml

from saponary.book.findings import Finding, Place

MAX_BYTES = 1_000_000
MAX_NODES = 20_000
MAX_DEPTH = 30
MAX_ALIASES = 50

Path: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True)
class Span:
    """Where a scalar stands in the text: character offsets, and line and column from 1."""

    start: int
    end: int
    line: int
    column: int
    style: str = ""


@dataclass
class Tree:
    """Plain data (str, list, dict, None) with the span of every value and key by its path."""

    data: Any = None
    values: dict[Path, Span] = field(default_factory=dict)
    keys: dict[Path, Span] = field(default_factory=dict)

    def nearest(self, path: Path, *, key: bool = False) -> Span | None:
        """The span at `path`, or of its closest ancestor that has one."""
        for end in range(len(path), -1, -1):
            if key and path[:end] in self.keys:
                return self.keys[path[:end]]
            if path[:end] in self.values:
                return self.values[path[:end]]
        return None


class _Refused(Exception):
    def __init__(self, message: str, hint: str, mark: Any) -> None:
        super().__init__(message)
        self.message, self.hint, self.mark = message, hint, mark


_LIBRARY_HINTS = (
    ("tab", "indent with spaces"),
    ("unacceptable character", "remove the control character"),
    ("mapping values are not allowed", "a colon and a space inside a value: put the value in quotes"),
    ("could not find expected ':'", "a key needs a colon and a space after it"),
    ("did not find expected key", "check the indentation, and close every bracket and quote"),
    ("did not find expected ',' or", "close the bracket or brace, and put commas between its parts"),
    ("unexpected end of stream", "close the quote or bracket that was opened here"),
    ("cannot start any token", "put the value in quotes"),
    ("undefined alias", "aliases (*name) need an anchor (&name) before them"),
)


def read_yaml(text: str, file: str, *, first_line: int = 1, offset: int = 0) -> tuple[Tree, list[Finding]]:
    """Read one YAML document. On failure the tree's data is None and a finding says why.

    `first_line` and `offset` are where the text begins in its file, so that positions are
    those of the file.
    """
    tree = Tree()
    findings: list[Finding] = []

    def place(mark: Any) -> Place:
        if mark is None:
            return Place(file, first_line, 1)
        return Place(file, mark.line + first_line, mark.column + 1)

    if len(text.encode("utf-8", "surrogatepass")) > MAX_BYTES:
        return tree, [
            Finding("reading", "error", Place(file, first_line, 1), "this is too large to be a recipe's front matter",
                    f"keep it below {MAX_BYTES // 1000} kB")
        ]  # fmt: skip
    builder = _Builder(tree, findings, place, first_line, offset)
    try:
        loader = yaml.parse(text, Loader=yaml.CSafeLoader)
        builder.document(loader)
    except _Refused as refused:
        findings.append(Finding("reading", "error", place(refused.mark), refused.message, refused.hint))
        return Tree(), findings
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        said = getattr(error, "problem", None) or getattr(error, "reason", None) or "cannot be read"
        hint = next(
            (h for key, h in _LIBRARY_HINTS if key in str(error)),
            "check indentation, colons and quotes on this line",
        )
        findings.append(Finding("reading", "error", place(mark), f"broken YAML: {said}", hint))
        return Tree(), findings
    return tree, findings


class _Builder:
    """Builds the tree from events, one node at a time, without recursion deeper than MAX_DEPTH."""

    def __init__(self, tree: Tree, findings: list[Finding], place: Any, first_line: int, offset: int) -> None:
        self.tree, self.findings, self.place = tree, findings, place
        self.first_line, self.offset = first_line, offset
        self.anchors: dict[str, Any] = {}
        self.nodes = self.aliases = 0

    def document(self, events: Iterator[Any]) -> None:
        started = False
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if started:
                    raise _Refused(
                        "a second YAML document begins here",
                        "keep one block of front matter",
                        event.start_mark,
                    )
                started = True
            elif isinstance(
                event, (yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent, yaml.AliasEvent)
            ):
                self.tree.data = self.node(event, events, (), 0)

    def span(self, event: Any) -> Span:
        start, end = event.start_mark, event.end_mark
        return Span(
            start.index + self.offset,
            end.index + self.offset,
            start.line + self.first_line,
            start.column + 1,
            getattr(event, "style", None) or "",
        )

    def node(self, event: Any, events: Iterator[Any], path: Path, depth: int) -> Any:
        self.nodes += 1
        if self.nodes > MAX_NODES:
            raise _Refused("too many values", f"a file may hold {MAX_NODES} values", event.start_mark)
        if depth > MAX_DEPTH:
            raise _Refused("nested too deeply", f"a file may nest {MAX_DEPTH} levels", event.start_mark)
        self.tree.values[path] = self.span(event)
        if isinstance(event, yaml.AliasEvent):
            return self.alias(event)
        if getattr(event, "tag", None) not in (None, "!") and not str(event.tag).startswith(
            "tag:yaml.org,2002:str"
        ):
            raise _Refused(f"the tag {event.tag} is not read", "leave tags out", event.start_mark)
        if isinstance(event, yaml.ScalarEvent):
            plain = event.implicit[0]
            value: Any = None if plain and event.value in ("", "~", "null", "Null", "NULL") else event.value
        elif isinstance(event, yaml.SequenceStartEvent):
            value = []
            for index, child in enumerate(_until(events, yaml.SequenceEndEvent)):
                value.append(self.node(child, events, (*path, index), depth + 1))
        else:
            value = self.mapping(events, path, depth)
        if event.anchor:
            self.anchors[event.anchor] = value
        return value

    def mapping(self, events: Iterator[Any], path: Path, depth: int) -> dict[str, Any]:
        value: dict[str, Any] = {}
        for key in _until(events, yaml.MappingEndEvent):
            if not isinstance(key, yaml.ScalarEvent):
                raise _Refused(
                    "a key must be a plain word",
                    "a value that begins with { or [ needs quotes",
                    key.start_mark,
                )
            name = key.value
            if name == "<<":
                raise _Refused("merge keys (<<) are not read", "write the values out", key.start_mark)
            child = next(events)
            where = (*path, name)
            if name in value:
                first = self.tree.keys[where]
                self.findings.append(
                    Finding("reading", "error", self.place(key.start_mark), f"the key {name!r} is given twice",
                            f"it stands first on line {first.line}; keep one")
                )  # fmt: skip
                self.node(child, events, (*path, f"{name} (again)"), depth + 1)
                continue
            self.tree.keys[where] = self.span(key)
            value[name] = self.node(child, events, where, depth + 1)
        return value

    def alias(self, event: Any) -> Any:
        self.aliases += 1
        if self.aliases > MAX_ALIASES:
            raise _Refused("too many aliases", f"a file may use {MAX_ALIASES} aliases", event.start_mark)
        if event.anchor not in self.anchors:
            raise _Refused(
                f"the alias *{event.anchor} has no anchor before it", "write the value out", event.start_mark
            )
        value = self.anchors[event.anchor]
        self.nodes += _count(value, MAX_NODES - self.nodes)
        if self.nodes > MAX_NODES:
            raise _Refused(
                "aliases expand to too many values", f"a file may hold {MAX_NODES} values", event.start_mark
            )
        return value


def _until(events: Iterator[Any], end: type) -> Iterator[Any]:
    for event in events:
        if isinstance(event, end):
            return
        yield event


def _count(value: Any, room: int) -> int:
    """Nodes in a value, counting no further than `room` needs."""
    total, stack = 0, [value]
    while stack and total <= room:
        each = stack.pop()
        total += 1
        if isinstance(each, dict):
            stack.extend(each.values())
        elif isinstance(each, list):
            stack.extend(each)
    return total
