"""YAML read with every value's place kept, and bounded against hostile files.

The tree is built here from libyaml's events, so that nothing is resolved to a number,
date or truth value before the schema asks for one, duplicate keys are seen, and size,
depth and aliases are limited before anything is expanded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml

from saponary.reading.findings import Finding, Place
from saponary.reading.names import in_form
from saponary.reading.plain import is_list, is_map
from saponary.reading.tree import MAX_FAULTS, Lines, Path, Span, Tree, shown

MAX_BYTES = 1_000_000
MAX_NODES = 20_000
MAX_DEPTH = 30
MAX_ALIASES = 50
MAX_KEYS = 1_000

_CONTROL = re.compile(r"[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_SEPARATOR = re.compile("[\x85\u2028\u2029]")
_DIRECTIVE = re.compile(r"(?:\A|(?<=[\r\n]))%")
_BEFORE_SCALAR = re.compile(r"(?:(?:[&!]\S*|#[^\r\n]*)\s+)*")
_ESCAPE = re.compile(r"\\(?:x([0-9a-fA-F]{2})|u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|.)", re.DOTALL)


class _Refused(Exception):
    def __init__(self, message: str, hint: str, mark: Any) -> None:
        super().__init__(message)
        self.message, self.hint, self.mark = message, hint, mark


_LIBRARY_HINTS = (
    (" tab ", "indent with spaces"),
    ("maximum nesting", f"a file may nest {MAX_DEPTH} levels"),
    ("mapping values are not allowed", "a colon and a space inside a value: put the value in quotes"),
    ("could not find expected ':'", "a key needs a colon and a space after it"),
    (
        "did not find expected key",
        "begin it at the same column as the keys beside it, and close every bracket and quote above",
    ),
    ("did not find expected ',' or", "close the bracket or brace, and put commas between its parts"),
    ("unexpected end of stream", "close the quote or bracket that was opened here"),
    ("cannot start any token", "put the value in quotes"),
    ("undefined alias", "aliases (*name) need an anchor (&name) before them"),
)


_IN_PLAIN_WORDS = (
    ("did not find expected key", "this line does not fit the lines above it"),
    ("did not find expected ',' or", "a bracket or brace is not closed before this line"),
    ("mapping values are not allowed", "a second colon stands in this value"),
    ("could not find expected ':'", "this line has no colon after its key"),
    ("unexpected end of stream", "a quote or bracket that is opened here is never closed"),
    ("cannot start any token", "this sign cannot begin a value"),
)
"""What the library says, as a maker would."""


def read_yaml(text: str, file: str, *, first_line: int = 1, offset: int = 0) -> tuple[Tree, list[Finding]]:
    """Read one YAML document. On failure the tree's data is None and a finding says why.

    `first_line` and `offset` are where the text begins in its file, so that positions are
    those of the file.
    """
    tree = Tree()
    findings: list[Finding] = []
    lines = Lines(text, first_line)

    def place(mark: Any) -> Place:
        return Place(file, *lines.at(mark if isinstance(mark, int) else mark.index))

    def refuse(mark: Any, message: str, hint: str) -> tuple[Tree, list[Finding]]:
        return Tree(), [*findings, Finding("reading", "error", place(mark), message, hint)]

    if len(text) > MAX_BYTES or len(text.encode("utf-8", "surrogatepass")) > MAX_BYTES:
        return refuse(
            0, "this is too large to be a recipe's front matter", f"keep it below {MAX_BYTES // 1000} kB"
        )
    control = _CONTROL.search(text)
    if control is not None:
        return refuse(control.start(), f"a control character, U+{ord(control[0]):04X}", "take it out")
    directive = _DIRECTIVE.search(text)
    if directive is not None:
        return refuse(directive.start(), "directives (%) are not read", "leave this line out")
    builder = _Builder(text, tree, findings, place, lines, offset)
    try:
        builder.document(yaml.parse(text, Loader=yaml.CSafeLoader))
    except _Refused as refused:
        return refuse(refused.mark, refused.message, refused.hint)
    except yaml.YAMLError as error:
        return refuse(*_broken(text, error))
    return tree, findings


def _broken(text: str, error: yaml.YAMLError) -> tuple[int, str, str]:
    """Where a text is no YAML, what is wrong there in the library's words, and what may mend it."""
    said = getattr(error, "problem", None) or getattr(error, "reason", None) or "cannot be read"
    marks = [getattr(error, "problem_mark", None), getattr(error, "context_mark", None)]
    if "end of stream" in said:
        marks.reverse()
    at = next((mark.index for mark in marks if mark is not None), 0)
    separator = _SEPARATOR.search(text, 0, at)
    if separator is not None:
        unseen = f"U+{ord(separator[0]):04X}"
        return separator.start(), f"broken YAML: an unseen line break, {unseen}", "take it out"
    hint = next(
        (h for key, h in _LIBRARY_HINTS if key in f" {error} "),
        "check indentation, colons and quotes on this line",
    )
    if text[at : at + 1] == "\t":
        hint = "indent with spaces, not with a tab"
    plain = next((words for key, words in _IN_PLAIN_WORDS if key in said), f"broken YAML: {said}")
    return at, plain, hint


class _Builder:
    """Builds the tree from events, one node at a time, without recursion deeper than MAX_DEPTH."""

    def __init__(
        self, text: str, tree: Tree, findings: list[Finding], place: Any, lines: Lines, offset: int
    ) -> None:
        self.text, self.tree, self.findings, self.place = text, tree, findings, place
        self.lines, self.offset = lines, offset
        self.anchors: dict[str, tuple[Any, Path]] = {}
        self.nodes = self.aliases = 0

    def fault(self, mark: Any, message: str, hint: str) -> None:
        if len(self.findings) >= MAX_FAULTS:
            raise _Refused("too many faults to go on", "correct those before this one first", mark)
        self.findings.append(Finding("reading", "error", self.place(mark), message, hint))

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
        start, end, is_scalar = (
            event.start_mark.index,
            event.end_mark.index,
            isinstance(event, yaml.ScalarEvent),
        )
        if is_scalar and (event.anchor or event.tag):
            before = _BEFORE_SCALAR.match(self.text, start, end)
            start = before.end() if before else start
        line, column = self.lines.at(start)
        style = (event.style or "") if is_scalar else ""
        return Span(start + self.offset, end + self.offset, line, column, style)

    def node(self, event: Any, events: Iterator[Any], path: Path, depth: int) -> Any:
        self.nodes += 1
        if self.nodes > MAX_NODES:
            raise _Refused("too many values", f"a file may hold {MAX_NODES} values", event.start_mark)
        if depth > MAX_DEPTH:
            raise _Refused("nested too deeply", f"a file may nest {MAX_DEPTH} levels", event.start_mark)
        self.tree.values[path] = self.span(event)
        if isinstance(event, yaml.AliasEvent):
            return self.alias(event, path)
        self.untagged(event)
        if isinstance(event, yaml.ScalarEvent):
            plain = event.implicit[0]
            self.scalar(event)
            value: Any = (
                None if plain and event.value in ("", "~", "null", "Null", "NULL") else in_form(event.value)
            )
        elif isinstance(event, yaml.SequenceStartEvent):
            value = []
            for index, child in enumerate(_until(events, yaml.SequenceEndEvent)):
                value.append(self.node(child, events, (*path, index), depth + 1))
        else:
            value = self.mapping(events, path, depth)
        if event.anchor:
            self.anchors[event.anchor] = (value, path)
        return value

    def untagged(self, event: Any) -> None:
        tag = event.tag
        if tag not in (None, "!", "tag:yaml.org,2002:str"):
            written = str(tag).replace("tag:yaml.org,2002:", "!!")
            raise _Refused(f"the tag {shown(written)} is not read", "leave tags out", event.start_mark)

    def scalar(self, event: Any) -> None:
        """What a value or key may not hold, however it is written."""
        control = _CONTROL.search(event.value)
        if control is not None:
            self.fault(
                event.start_mark,
                f"this text holds a control character, U+{ord(control[0]):04X}",
                "leave the escape out",
            )
        if event.style == '"':
            raw = self.text[event.start_mark.index : event.end_mark.index]
            for escape in _ESCAPE.finditer(raw) if "\\" in raw else ():
                code = escape[1] or escape[2] or escape[3]
                if code and chr(int(code, 16)) in "{}=":
                    self.fault(
                        event.start_mark.index + escape.start(),
                        f"the escape {escape[0]} hides a {chr(int(code, 16))}",
                        "write the character itself, so that figures in the text can be checked",
                    )

    def mapping(self, events: Iterator[Any], path: Path, depth: int) -> dict[str, Any]:
        value: dict[str, Any] = {}
        for key in _until(events, yaml.MappingEndEvent):
            if not isinstance(key, yaml.ScalarEvent):
                raise _Refused(
                    "a key must be a plain word",
                    "a value that begins with { or [ needs quotes",
                    key.start_mark,
                )
            self.untagged(key)
            self.scalar(key)
            name = in_form(key.value)
            if name == "<<":
                raise _Refused("merge keys (<<) are not read", "write the values out", key.start_mark)
            if len(value) >= MAX_KEYS:
                raise _Refused("too many keys in one map", f"a map may hold {MAX_KEYS} keys", key.start_mark)
            child = next(events)
            where = (*path, name)
            if name in value:
                self.fault(
                    key.start_mark,
                    f"the key {shown(name)} is given twice",
                    f"it stands first on line {self.tree.keys[where].line}; keep one",
                )
                self.node(child, events, (*path, f"{name} (again)"), depth + 1)
                continue
            if name != name.strip():
                self.fault(key.start_mark, f"the key {shown(name)} has spaces around it", "take them out")
            self.tree.keys[where] = self.span(key)
            value[name] = self.node(child, events, where, depth + 1)
        return value

    def alias(self, event: Any, path: Path) -> Any:
        """What an alias stands for; the places of its parts are those of the anchored text."""
        self.aliases += 1
        if self.aliases > MAX_ALIASES:
            raise _Refused("too many aliases", f"a file may use {MAX_ALIASES} aliases", event.start_mark)
        if event.anchor not in self.anchors:
            raise _Refused(
                f"the alias {shown('*' + event.anchor)} has no anchor before it",
                "write the value out",
                event.start_mark,
            )
        value, origin = self.anchors[event.anchor]
        self.nodes += _count(value, MAX_NODES - self.nodes)
        if self.nodes > MAX_NODES:
            raise _Refused(
                "aliases expand to too many values", f"a file may hold {MAX_NODES} values", event.start_mark
            )
        if not (is_map(value) or is_list(value)):
            self.tree.values[path] = self.tree.values[origin]
            return value
        depth = len(origin)
        for spans in (self.tree.values, self.tree.keys):
            for at in [each for each in spans if len(each) > depth and each[:depth] == origin]:
                spans[(*path, *at[depth:])] = spans[at]
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
        if is_map(each):
            stack.extend(each.values())
        elif is_list(each):
            stack.extend(each)
    return total
