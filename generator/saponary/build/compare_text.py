"""How a comparison is told: as lines for a terminal, as Markdown for a code host, as JSON for a program."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict

from saponary.book.engine import ENGINE
from saponary.book.moved import Moved
from saponary.build.compare import Changed, Comparison
from saponary.build.revisions import Pair, Revised
from saponary.reading.decode import printable

_NONE = "-"


def as_text(found: Comparison, asked: Pair) -> str:
    """Lines, one figure each, in columns."""
    lines = [f"{_revision(asked.old)} to {_after(asked)}"]
    for one in found.changed:
        lines += ["", _head(one), *(f"  {line}" for line in _beside(one))]
        lines += [f"  {line}" for line in columns(one.moved)]
    if found.drifted:
        lines += ["", f"{_alone(asked)}:"]
        lines += [f"  recipes/{row.recipe}: {row.name} {row.signed} -> {row.today}" for row in found.drifted]
    return "\n".join([*map(printable, lines), "", _count(found)])


def columns(rows: Sequence[Moved]) -> Iterator[str]:
    """Figures before and after, one a line."""
    width = max((len(row.name) for row in rows), default=0)
    wide = max((len(row.before or _NONE) for row in rows), default=0)
    for row in rows:
        by = f"  ({row.by})" if row.by else ""
        yield f"{row.name:<{width}}  {row.before or _NONE:>{wide}}  ->  {row.after or _NONE}{by}"


def as_markdown(found: Comparison, asked: Pair) -> str:
    """Headings and tables, for a comment on a pull request."""
    lines = [
        f"## Figures: {_code(asked.old.name)} to {_code(asked.new.name) if asked.new else 'this folder'}"
    ]
    for one in found.changed:
        lines += ["", f"### {_cell(one.title)}", "", _cell(_head(one))]
        lines += [f"- {_cell(line)}" for line in _beside(one)]
        if one.moved:
            lines += ["", "| figure | before | after | difference |", "| :-- | --: | --: | --: |"]
            lines += [
                f"| {_cell(row.name)} | {row.before or _NONE} | {row.after or _NONE} | {row.by or ''} |"
                for row in one.moved
            ]
    if found.drifted:
        lines += ["", f"### {_cell(_alone(asked))}", "", "| recipe | figure | signed | today |"]
        lines += ["| :-- | :-- | --: | --: |"]
        lines += [
            f"| {_cell(row.recipe)} | {_cell(row.name)} | {_cell(row.signed)} | {row.today} |"
            for row in found.drifted
        ]
    return "\n".join([*lines, "", _count(found)])


def as_json(found: Comparison, asked: Pair) -> str:
    """One object; keys are stable, figures as shown."""
    new = asdict(asked.new) if asked.new else None
    told = {
        "engine": ENGINE,
        "before": asdict(asked.old),
        "after": new,
        "unsaved": asked.unsaved,
        "changed": [asdict(one) for one in found.changed],
        "by-engine-or-tables": [asdict(row) for row in found.drifted],
        "same": found.same,
    }
    return json.dumps(told, indent=2, ensure_ascii=False)


FORMATS: Mapping[str, Callable[[Comparison, Pair], str]] = {
    "text": as_text,
    "markdown": as_markdown,
    "json": as_json,
}


def _revision(one: Revised) -> str:
    return f"{one.name} ({one.day}, {one.about})"


def _after(asked: Pair) -> str:
    if asked.new is not None:
        return _revision(asked.new)
    count = asked.unsaved
    return f"this folder ({count} file{'s' * (count != 1)} not committed)" if count else "this folder"


def _head(one: Changed) -> str:
    """The recipe's file, and what became of it as a whole."""
    if one.kind == "changed":
        return f"{one.file}{f', before {one.was}' if one.was else ''}"
    told = {"new": "is new", "gone": "is gone", "unreadable": "cannot be compared"}
    return f"{one.file} {told[one.kind]}"


def _beside(one: Changed) -> Iterator[str]:
    """What changed besides figures."""
    yield from one.faults
    if one.status is not None:
        yield f"status: {one.status[0]} -> {one.status[1]}"
    if one.order is not None:
        before, after = (", ".join(names) or _NONE for names in one.order)
        yield f"ingredient list, where it differs: {before} -> {after}"


def _alone(asked: Pair) -> str:
    return f"Signed at {asked.old.name}, and another figure by today's engine and tables for the same recipe"


def _count(found: Comparison) -> str:
    changed = len(found.changed)
    return f"{changed} recipe{'s' * (changed != 1)} changed, {found.same} did not"


def _cell(text: str) -> str:
    """Text from a maker's file as plain text in Markdown."""
    plain = printable(text)
    return "".join(f"\\{c}" if c in "\\`*_{}[]<>|#!~" else c for c in plain)


def _code(text: str) -> str:
    return f"`{printable(text).replace('`', '')}`"
