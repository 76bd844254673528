"""Harness of every pair of writing commands at once: whatever meets whatever, nothing is lost and nothing is half."""

from __future__ import annotations

import json
import random
import shutil
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from pathlib import Path

from harnesses.children import Child, begin, warm
from harnesses.harness import Harness, Score, fault_of_site, parts_left, small_book
from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.reading.findings import errors
from support import PLAIN

READS = frozenset(["watch", "compare", "pantry", "rules"])
"""Commands that write nothing but what they keep for the next time."""
_ON = ["--on", "2026-03-02"]


@dataclass(frozen=True)
class Writes:
    """A command that writes: its words in a place, and what is wrong where it ended well (its own output and how
    often it did are given)."""

    name: str
    words: Callable[[Path, int], list[str]]
    wrong: Callable[[Path, Sequence[int]], str | None]
    refuses: bool = False
    """Whether it may be refused where another was there first."""
    apart: bool = False
    """Whether it writes into a folder of its own, beside the book."""


def _record(root: Path, ran: Sequence[int]) -> str | None:
    count = (root / "recipes/b.md").read_text().count("- lot:")
    return None if count == sum(ran) else f"{sum(ran)} records, {count} there"


def _signed(root: Path, ran: Sequence[int]) -> str | None:
    text = (root / "recipes/a.md").read_text()
    return None if "lye: 139.8 g" in text and "formula:" in text else f"not signed: {text[:400]}"


def _new(root: Path, ran: Sequence[int]) -> str | None:
    found = [p for p in (root / "recipes").glob("new-*.md") if not p.read_text().endswith("round.\n")]
    return f"a recipe is not whole: {found}" if found else None


def _exported(root: Path, ran: Sequence[int]) -> str | None:
    found = sorted(p.name for p in (root / "out").glob("*.csv"))
    if {"figures.csv", "a.csv", "b.csv"} - set(found):
        return f"tables: {found}"
    return (
        None if all(p.read_text().endswith("\n") for p in (root / "out").glob("*.csv")) else "a table is cut"
    )


def _schemas(root: Path, ran: Sequence[int]) -> str | None:
    found = sorted((root / ".schema").glob("*.json"))
    for path in found:
        json.loads(path.read_text())
    return None if len(found) >= 6 else f"schemas: {found}"


def _begun(root: Path, ran: Sequence[int]) -> str | None:
    fresh = root / "fresh"
    if sum(ran) == 0:
        return "no begin came to its end"
    found = errors(prove(fresh).findings)
    return f"the new book: {found[0]}" if found else parts_left(fresh)


def _manual(root: Path, ran: Sequence[int]) -> str | None:
    listed = (root / "man/.saponary-manual").read_text().splitlines()
    names = [line.partition("  ")[2] for line in listed if "  " in line]
    lacking = [name for name in names if not (root / "man" / name).is_file()]
    left = [str(p) for p in (root / "man").rglob("*.part")]
    return f"lacking {lacking[:3]}, left {left[:3]}" if lacking or left or len(names) < 20 else None


def _well(root: Path, ran: Sequence[int]) -> str | None:
    return None


COMMANDS: tuple[Writes, ...] = (
    Writes("build", lambda root, n: ["build", str(root), *_ON], _well),
    Writes("build --edition all", lambda root, n: ["build", str(root), "--edition", "all", *_ON], _well),
    Writes("build --adopt", lambda root, n: ["build", str(root), "--edition", "shop", "--adopt", *_ON], _well),
    Writes("proof", lambda root, n: ["proof", str(root)], _well),
    Writes("record", lambda root, n: ["record", "b", "--book", str(root), *_ON], _record),
    Writes("sign", lambda root, n: ["sign", "a", "--book", str(root)], _signed),
    Writes("new", lambda root, n: ["new", f"new-{n % 3}", "--book", str(root)], _new, refuses=True),
    Writes("schema", lambda root, n: ["schema", "--for", str(root)], _schemas),
    Writes("export", lambda root, n: ["export", str(root / "out"), "--book", str(root)], _exported, True, True),
    Writes("labels", lambda root, n: ["labels", str(root / "out"), "--book", str(root)], _well, True, True),
    Writes("begin", lambda root, n: ["begin", str(root / "fresh"), "--yes"], _begun, True, True),
    Writes("manual", lambda root, n: ["manual", "--site", str(root / "man")], _manual, apart=True),
)  # fmt: skip
PAIRS = tuple(combinations_with_replacement(COMMANDS, 2))


def _anew(root: Path) -> None:
    """The book as it is before each try; its site and what is kept stay."""
    (root / "recipes/a.md").write_text(PLAIN)
    (root / "recipes/b.md").write_text(PLAIN.replace("Plain", f"Other {time.time_ns()}"))
    for path in (root / "recipes").glob("new-*.md"):
        path.unlink()
    for name in ("out", "fresh", "man", ".schema"):
        shutil.rmtree(root / name, ignore_errors=True)


def _fault(root: Path, pair: Sequence[Writes], children: Sequence[Child]) -> str | None:
    ended = [child.ended() for child in children]
    for one, child, status in zip(pair, children, ended, strict=True):
        allowed = (0, 1, 2) if one.refuses else (0,)
        if status not in allowed or "Traceback" in child.said:
            return f"{one.name}: {status} {child.said[-300:]}"
    for one in dict.fromkeys(pair):
        ran = [int(status == 0) for each, status in zip(pair, ended, strict=True) if each is one]
        fault = one.wrong(root, ran)
        if fault:
            return f"{one.name}: {fault}"
    return fault_of_site(root) or parts_left(root)


def overlapped(folder: Path, chance: random.Random, tries: int) -> Score:
    """Each try is one pair, in the order of chance, begun within a moment of each other."""
    warm()
    score, root = Score(), small_book(folder / "book")
    main(["build", str(root), "--edition", "all", *_ON])
    todo: list[tuple[Writes, Writes]] = []
    for turn in range(tries):
        if not todo:
            todo = chance.sample(PAIRS, len(PAIRS))
        pair = todo.pop()
        _anew(root)
        children: list[Child] = []
        for one in chance.sample(pair, 2):
            children.append(begin(one.words(root, turn)))
            time.sleep(chance.choice([0.0, 0.0, chance.random() * 0.05, chance.random() * 0.3]))
        fault = _fault(root, _ordered(pair, children, root, turn), children)
        score.count(f"{turn} {pair[0].name} and {pair[1].name}: {fault}" if fault else None)
    return score


def _ordered(
    pair: tuple[Writes, Writes], children: Sequence[Child], root: Path, turn: int
) -> Sequence[Writes]:
    """The pair in the order in which it was begun."""
    return pair if children[0].words == pair[0].words(root, turn) else pair[::-1]


HARNESSES = (Harness("every pair of writing commands at once", overlapped, 1_000 * len(PAIRS), 8),)
"""A thousand of each pair."""
