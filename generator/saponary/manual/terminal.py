"""The manual as lines of text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import indent

from saponary.checks.listed import Listed
from saponary.manual.find import below, places, topics_on
from saponary.manual.keys import PLACES, Key, default_of, keys_of
from saponary.manual.rule_lines import rule_lines, sample_lines
from saponary.manual.topic_lines import WIDTH, filled
from saponary.manual.topics import topics

EDITIONS = {
    "always": "by everybody",
    "full formula": "where an edition gives the formula in full",
    "": "by nobody but you",
}


def contents() -> Iterator[str]:
    """What there is to read, and how to ask for it."""
    yield "saponary manual TOPIC"
    yield from _table((one.slug, one.title) for one in topics())
    yield ""
    yield "saponary manual KEY     such as superfat, or oils.parts"
    yield "saponary manual FILE    every key of a kind of file:"
    yield from _table((file, f"{len(keys_of(file))} keys of {PLACES[file]}") for file in PLACES)
    yield "saponary manual RULE    such as usual-water; saponary rules lists them"
    yield "saponary manual WORDS   the lines that hold all of the words"


def key_lines(key: Key) -> Iterator[str]:
    """A key's card."""
    yield key.name
    yield from _set(key.meaning, "  ")
    yield from _row("write", key.form)
    if key.required:
        yield from _row("", "it must be given")
    elif told := default_of(key):
        yield from _row("else", told)
    for file, path in places(key):
        yield from _row("in", f"{PLACES[file]} at {path}")
    yield from _row("seen", seen(key))
    yield from _row("since", key.since)
    if key.example:
        yield "  example"
        yield indent(key.example, "    ")
    inner = below(key)
    if inner:
        yield "  its keys"
        yield from (f"  {line}" for line in _table((one.name, one.meaning) for one in inner))
    more = topics_on(key)
    if more:
        yield from _row("more", ", ".join(f"saponary manual {slug}" for slug in more))


def file_lines(file: str) -> Iterator[str]:
    """Every key of a kind of file, in short."""
    yield f"{PLACES[file]}"
    yield from _table((key.dotted, key.meaning) for key in keys_of(file))


def seen(key: Key) -> str:
    """Who sees what the key holds."""
    if not key.seen:
        return EDITIONS[""]
    return " or ".join(EDITIONS.get(by, f"where an edition shows {by}") for by in key.seen)


def rule_text(rule: Listed) -> Iterator[str]:
    """A rule's card."""
    head, about = rule_lines(rule)
    yield head
    yield from _set(about, "  ")
    yield from (indent(line, "  ") for line in sample_lines(rule.name))


def _row(head: str, text: str) -> Iterator[str]:
    lines = filled(text, WIDTH - 10) or [""]
    yield f"  {head:<7} {lines[0]}"
    yield from (f"{'':10}{line}" for line in lines[1:])


def _set(text: str, lead: str) -> Iterator[str]:
    yield from (lead + line for line in filled(text, WIDTH - len(lead)))


def _table(rows: Iterator[tuple[str, str]]) -> Iterator[str]:
    told = list(rows)
    width = min(max((len(name) for name, _ in told), default=0), 34)
    for name, what in told:
        lines = filled(what, WIDTH - width - 4) or [""]
        yield f"  {name:<{width}}  {lines[0]}"
        yield from (f"{'':{width + 4}}{line}" for line in lines[1:])
