"""Harness of kills inside the writing of a site: the process ends by itself at one step on the disk, each in its turn.

A step is what Python tells its audit hooks of: a file opened, a folder made, a name moved, linked or removed.
"""

from __future__ import annotations

import contextlib
import os
import random
import shutil
import signal
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from harnesses.children import begin_call
from harnesses.harness import Harness, Score
from saponary.assets import disk
from saponary.build import exchange, listed, write_site
from saponary.build.at_work import at_work
from saponary.build.begin import Occupied, begin
from saponary.cli import export
from saponary.cli.command import Misuse

_STEPS = frozenset(
    [
        "open",
        "os.rename",
        "os.link",
        "os.mkdir",
        "os.remove",
        "os.rmdir",
        "os.chmod",
        "os.chown",
        "ctypes.dlsym",
    ]
)
"""The last comes just before the exchange of two folders."""


@dataclass(frozen=True)
class Way:
    """A way in which a site is written: what the system, or the place, is like."""

    name: str
    whole: bool = True
    """Whether it is the old site or the new one, and nothing between, at any instant."""
    gap: bool = False
    """Whether there is an instant in which it is not there."""
    changed: Mapping[Any, Mapping[str, object]] | None = None
    link: bool = False


def _no_link(*given: object, **named: object) -> None:
    raise OSError(95, "no links here")


WAYS = (
    Way("exchanged"),
    Way("behind a link", link=True),
    Way("without exchange", gap=True, changed={exchange: {"exchange": lambda first, second: False}}),
    Way("without links", changed={os: {"link": _no_link}}),
    Way("few changes of many", whole=False, changed={write_site: {"_MANY": 1}}),
)
FOREIGN = {
    "CNAME": b"soap.example",
    ".git/config": b"[core]",
    ".well-known/x/y.txt": b"mine",
    "recipes/a/mine.jpg": b"\xff",
}


def pages(turn: int, chance: random.Random) -> dict[str, bytes]:
    """The files of a site: some as before, some new, some gone."""
    names = [f"recipes/{letter}/index.html" for letter in "abcdef"] + [f"assets/{n}.css" for n in range(4)]
    kept = [name for name in names if chance.random() < 0.8]
    return {"index.html": f"{turn}".encode()} | {
        name: f"{name} {turn if chance.random() < 0.3 else 0}".encode() for name in kept
    }


def _ends_at(step: int) -> None:
    """From now on, the process ends at so many steps."""
    count = 0

    def heard(event: str, given: tuple[Any, ...]) -> None:
        nonlocal count
        if event in _STEPS:
            count += 1
            if count == step:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(heard)


@contextlib.contextmanager
def _so(way: Way) -> Iterator[None]:
    """The system as a way has it."""
    before = [
        (thing, name, getattr(thing, name)) for thing, names in (way.changed or {}).items() for name in names
    ]
    try:
        for thing, names in (way.changed or {}).items():
            for name, value in names.items():
                setattr(thing, name, value)
        yield
    finally:
        for thing, name, value in before:
            setattr(thing, name, value)


def there(site: Path) -> dict[str, bytes]:
    """The files that lie in a folder."""
    return {p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()}


def _write(site: Path, files: Mapping[str, bytes], way: Way, step: int) -> Callable[[], int]:
    def call() -> int:
        with _so(way):
            _ends_at(step)
            write_site.write_site(site, files)
        return 0

    return call


def fault_of(site: Path, old: Mapping[str, bytes], new: Mapping[str, bytes], way: Way) -> str | None:
    """What is wrong with a site after a kill."""
    if way.gap and not site.exists():
        return None
    found = there(site)
    own = {
        name: data
        for name, data in found.items()
        if name not in FOREIGN and not disk.is_part(Path(name).name)
    }
    if way.whole:
        if own not in (dict(old), dict(new)):
            return f"neither old nor new: {sorted(own.items() ^ old.items())[:3]}"
    elif any(data not in (old.get(name), new.get(name)) for name, data in own.items()):
        return "a file is neither as it was nor as it was to be"
    # Where files cannot be shared, what is not ours is moved after the exchange; a kill between leaves it aside.
    lost = [name for name, data in FOREIGN.items() if found.get(name) != data and way.name != "without links"]
    return f"lost: {lost}" if lost else None


def killed_inside(folder: Path, chance: random.Random, tries: int) -> Score:
    """Each try writes a site, ends at one step, looks, and writes again to the end."""
    score = Score()
    sites: dict[str, tuple[Path, dict[str, bytes], int]] = {}
    for turn in range(tries):
        way = WAYS[turn % len(WAYS)]
        if way.name not in sites:
            sites[way.name] = _first(folder / way.name.replace(" ", "-"), way, chance)
        site, old, step = sites[way.name]
        new = pages(turn, chance)
        child = begin_call(_write(site, new, way, step))
        ended = child.ended()
        if ended not in (0, -signal.SIGKILL):
            score.count(f"{way.name} {step}: {ended} {child.said[-400:]}")
        else:
            score.count(_after(site, old, new, way, f"{way.name} at step {step}"))
        # Past the last step, at which nothing was killed, from the first again.
        sites[way.name] = (site, new, 1 if ended == 0 else step + chance.choice((1, 1, 2, 5)))
    return score


def _after(
    site: Path, old: Mapping[str, bytes], new: Mapping[str, bytes], way: Way, where: str
) -> str | None:
    """What is wrong right after a kill, or after the next build."""
    fault = fault_of(site, old, new, way)
    if fault is None:
        with _so(way):
            write_site.write_site(site, new)
        found = there(site)
        if found != dict(new) | FOREIGN:
            fault = f"after the next build: {sorted(found.keys() ^ (new.keys() | FOREIGN.keys()))[:4]}"
        left = [*(site.parent / ".saponary").glob("*-new"), *(site.parent / ".saponary").glob("*-old")]
        left += [path for path in site.parent.rglob("*") if disk.is_part(path.name)]
        fault = fault or (f"left over: {left[:3]}" if left else None)
    return f"{where}: {fault}" if fault else None


def _first(root: Path, way: Way, chance: random.Random) -> tuple[Path, dict[str, bytes], int]:
    """A site with foreign files in it, as a build left it."""
    (root / "book").mkdir(parents=True)
    site = root / "book/site"
    if way.link:
        (root / "far/away").mkdir(parents=True)
        site.symlink_to(root / "far/away")
    old = pages(0, chance)
    write_site.write_site(site, old)
    for name, data in FOREIGN.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_bytes(data)
    with _so(way):
        write_site.write_site(site, old)
    return site, old, 1


MADE = {f"{name}/{n}.html": f"{name} {n}".encode() for name in ("keys", "topics") for n in range(6)}


def _lay(root: Path) -> None:
    listed.lay(root, root / ".list", MADE, alone=True)


def _export(root: Path) -> None:
    with contextlib.suppress(Misuse):  # all are there
        export.write(root, {name.replace("/", "-"): data for name, data in MADE.items()})


def _begin(root: Path) -> None:
    with contextlib.suppress(Occupied):  # nothing is lacking: what was killed had written all
        begin(root)
    with at_work(root, "begin"):  # as the command does, for the schemas
        pass


_OWN = frozenset([".list", ".saponary/lock"])
WRITERS: tuple[Callable[[Path], None], ...] = (_begin, _export, _lay)


def killed_folders(folder: Path, chance: random.Random, tries: int) -> Score:
    """A new book, tables and a manual: ended at one step, each file is whole, and the same again finishes it."""
    score, step = Score(), 1
    wanted = {write: _whole(folder / "whole" / write.__name__ / "book", write) for write in WRITERS}
    for turn in range(tries):
        write = WRITERS[turn % len(WRITERS)]
        step = step + chance.choice((1, 1, 3)) if turn % len(WRITERS) == 0 else step
        root = folder / str(turn) / "book"
        root.parent.mkdir()
        ended = begin_call(_at(step, write, root)).ended()
        fault = _of_folder(there(root), wanted[write]) or _again(root, write, wanted[write])
        score.count(f"{write.__name__} at step {step}: {fault}" if fault else None)
        step = 0 if ended == 0 and write is WRITERS[0] else step
        shutil.rmtree(root.parent)
    return score


def _whole(root: Path, write: Callable[[Path], None]) -> dict[str, bytes]:
    """What is written; of lists, which name the folder, that they are there."""
    write(root)
    return {name: b"" if name in _OWN else data for name, data in there(root).items()}


def _again(root: Path, write: Callable[[Path], None], wanted: Mapping[str, bytes]) -> str | None:
    try:
        after = _whole(root, write)
    except Exception as error:
        return f"again: {type(error).__name__} {error}"
    return None if after == wanted else f"again: {sorted(after.items() ^ wanted.items())[:2]}"


def _at(step: int, write: Callable[[Path], None], root: Path) -> Callable[[], int]:
    def call() -> int:
        _ends_at(step)
        write(root)
        return 0

    return call


def _of_folder(found: Mapping[str, bytes], wanted: Mapping[str, bytes]) -> str | None:
    """What is wrong with a folder that was not finished; its list may say more than is there."""
    half = [
        name
        for name, data in found.items()
        if not (disk.is_part(Path(name).name) or name in _OWN or name.startswith(".saponary/"))
        and wanted.get(name) != data
    ]
    return f"not whole: {half[:3]}" if half else None


HARNESSES = (
    Harness("kills at each step of writing a site", killed_inside, 3_000, 60),
    Harness("kills at each step of a new book, tables and a manual", killed_folders, 900, 30),
)
