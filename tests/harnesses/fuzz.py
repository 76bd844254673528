"""Harness of broken files: bytes, lines and structure of a book's files changed at random; nothing is ever raised."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from faults.sound import InMemory
from harnesses.harness import Harness, Score
from saponary.assets import resources
from saponary.book.library import read_book
from saponary.build.proof import prove_book
from saponary.reading.decode import decoded
from saponary.reading.files import Unread
from saponary.reading.findings_text import as_text
from support import prove_one
from whole.edits import BOOK

_BYTES = b"\x00\xff\xfe:{}[]-#&*!|>'\"%@`,?\n\r\t \xe2\x80\x8b09azAZ<=/"
_ODD: tuple[Any, ...] = (
    None, "", "~", "0", "-1", "1e308", "99999999999999999999", "nan", "x" * 3000, "1 g", "1000 kg", "0.0000001 g", "100 %",
    "1/0", "2026-02-30", "9999-12-31", "{lye}", "\u202e", "é", [], {}, [[]], {"": ""}, ["a", "a"], True, "<!--", "a: b",
)  # fmt: skip
"""Values that fit nowhere, or just."""


def _bytes(data: bytes, chance: random.Random) -> bytes:
    """A few bytes changed, doubled or dropped."""
    out = bytearray(data)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(out) or 1)
        match chance.randrange(4):
            case 0:
                out[at : at + 1] = bytes([chance.choice(_BYTES)])
            case 1:
                del out[at : at + chance.randint(1, 40)]
            case 2:
                out[at:at] = bytes(chance.choice(_BYTES) for _ in range(chance.randint(1, 8)))
            case _:
                out[at:at] = out[at : at + chance.randint(1, 200)]
    return bytes(out)


def _lines(data: bytes, chance: random.Random) -> bytes:
    """Lines moved, doubled, dropped, or further in than they were."""
    lines = data.split(b"\n")
    for _ in range(chance.randint(1, 5)):
        at, to = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(4):
            case 0:
                lines[at], lines[to] = lines[to], lines[at]
            case 1:
                lines.insert(to, lines[at])
            case 2:
                lines.pop(at) if len(lines) > 2 else None
            case _:
                lines[at] = b" " * chance.randrange(5) + lines[at].lstrip()
    return b"\n".join(lines)


def _inside(value: Any) -> list[tuple[Any, Any]]:
    """Every place in a tree: a map or list, and a key or index of it."""
    found: list[tuple[Any, Any]] = []
    keys = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ()
    for key in keys:
        found.append((value, key))
        found += _inside(value[key])
    return found


def _structure(data: bytes, chance: random.Random) -> bytes:
    """Values taken for others, put elsewhere, left out, wrapped or doubled; written as YAML again."""
    head, front, notes = data.partition(b"\n---\n") if data.startswith(b"---\n") else (data, b"", b"")
    tree = yaml.load(head.removeprefix(b"---\n"), Loader=yaml.BaseLoader)
    for _ in range(chance.randint(1, 3)):
        places = _inside(tree)
        if not places:
            break
        (holder, key), (other, other_key) = chance.choice(places), chance.choice(places)
        match chance.randrange(5):
            case 0:
                holder[key] = deepcopy(chance.choice(_ODD))  # what is put in may be changed in its turn
            case 1:
                holder[key] = yaml.load(yaml.safe_dump(other[other_key]), Loader=yaml.BaseLoader)
            case 2:
                holder.pop(key)
            case 3:
                holder[key] = (
                    [holder[key]]
                    if chance.random() < 0.5
                    else {chance.choice(["of", "a", "value"]): holder[key]}
                )
            case _ if isinstance(holder, list):
                holder.append(holder[key])
            case _:
                holder[chance.choice(["a", "title", "of", "what", f"{key}s"])] = holder[key]
    text = yaml.safe_dump(tree, allow_unicode=True, sort_keys=False).encode()
    return b"---\n" + text + front.removeprefix(b"\n") + notes if front else text


_WAYS = (_bytes, _lines, _structure)


def recipes(folder: Path, chance: random.Random, tries: int) -> Score:
    """The starter recipes, each alone in a bare book."""
    score = Score()
    starters = [path.read_bytes() for path in sorted(resources.starters().glob("*.md"))]
    for turn in range(tries):
        data = chance.choice(_WAYS)(chance.choice(starters), chance)
        score.count(_raised(turn, lambda data=data: _alone(data)))
    return score


def books(folder: Path, chance: random.Random, tries: int) -> Score:
    """A small book with something of every kind in it, one of its files changed."""
    score = Score()
    sound = {name: data for name, data in BOOK.items() if name.endswith((".md", ".yaml"))}
    for turn in range(tries):
        name = chance.choice(sorted(sound))
        files = {**sound, name: chance.choice(_WAYS)(sound[name], chance)}
        score.count(_raised(turn, lambda files=files: _together(files)))
    return score


@dataclass(frozen=True)
class InBytes(InMemory):
    """The files of a book by name, as bytes."""

    files: Mapping[str, bytes] = field(default_factory=dict[str, bytes])

    def has(self, name: str) -> bool:
        return name in self.files

    def read(self, name: str) -> bytes | Unread:
        return self.files.get(name, Unread("is not there", ""))

    def names(self, folder: str) -> list[str] | Unread:
        return sorted(name.removeprefix(f"{folder}/") for name in self.files if name.startswith(f"{folder}/"))


def _alone(data: bytes) -> None:
    text, _ = decoded(data, "recipes/tried.md")
    if text is not None:
        as_text(prove_one(text).findings)


def _together(files: dict[str, bytes]) -> None:
    as_text(prove_book(read_book(InBytes({}, files=files))).findings)


def _raised(turn: int, call: Callable[[], None]) -> str | None:
    try:
        call()
    except Exception as error:
        return f"{turn}: {type(error).__name__} {error}"
    return None


HARNESSES = (
    Harness("recipes with bytes, lines and structure changed", recipes, 70_000, 12),
    Harness("books with a file so changed", books, 30_000, 6),
)
