"""The revisions that a comparison is asked for, and the recipes that were given another name between them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from saponary.assets.store import FOLDER
from saponary.reading.git import ask

_RANGE = re.compile(r"(?P<old>.*?)\.\.(?P<new>[^.].*)?")


class Unknown(Exception):
    """What was asked for cannot be found in the book's history; the message says why."""


@dataclass(frozen=True)
class Revised:
    """A revision: as it was asked for, its id, its day and the first line of its message."""

    name: str
    id: str
    day: str
    about: str


class Pair(NamedTuple):
    """From one revision to another; `new` is None for the folder as it is, of which `unsaved` files of
    the book differ from what is committed."""

    old: Revised
    new: Revised | None
    unsaved: int = 0


def pair(root: Path, words: Sequence[str]) -> tuple[Pair, list[str]]:
    """The revisions asked for, and the words that are left. Raises Unknown.

    The first word is a revision where git knows it as one, and else a recipe.
    """
    if ask(root, "rev-parse", "--show-prefix") is None:
        raise Unknown(
            f"{str(root)!r} is not kept in git, so there is nothing to compare it with; run: git init"
        )
    first, rest = (words[0], list(words[1:])) if words else ("", [])
    ranged = _RANGE.fullmatch(first)
    if ranged is not None:
        old = _known(root, ranged["old"] or "HEAD")
        return _to(root, old, _known(root, ranged["new"]) if ranged["new"] else None), rest
    found = _revised(root, first) if first else None
    if found is None and first and re.search(r"[^a-z0-9./_-]|^[0-9a-f]{7,40}$", first):
        raise _missing(root, first)
    old = found or _known(root, "HEAD")
    return _to(root, old, None), rest if found is not None else list(words)


def _to(root: Path, old: Revised, new: Revised | None) -> Pair:
    if new is not None:
        return Pair(old, new)
    words = ("status", "--porcelain", "-z", "--no-renames", "--untracked-files=all")
    told = ask(root, *words, "--", ".", f":(exclude){FOLDER}") or ""
    return Pair(old, None, sum(bool(line) for line in told.split("\0")))


def _known(root: Path, name: str) -> Revised:
    found = _revised(root, name)
    if found is None:
        raise _missing(root, name)
    return found


def _missing(root: Path, name: str) -> Unknown:
    if ask(root, "rev-parse", "--verify", "--quiet", "HEAD") is None:
        return Unknown("nothing is committed here yet, so there is nothing to compare with")
    shallow = (ask(root, "rev-parse", "--is-shallow-repository") or "").strip() == "true"
    why = "; only the end of the history is here: git fetch --unshallow brings the rest" if shallow else ""
    return Unknown(f"git knows no revision {name!r}{why}")


def _revised(root: Path, name: str) -> Revised | None:
    """A revision by any name git gives it; a word that looks like an option is none."""
    if name.startswith("-"):
        return None
    id = ask(root, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}")
    if id is None:
        return None
    told = ask(root, "show", "-s", "--date=short", "--format=%cd%x00%s", id.strip()) or "\0"
    day, _, about = told.rstrip("\n").partition("\0")
    return Revised(name, id.strip(), day, about)


def renamed(root: Path, asked: Pair) -> Mapping[str, str]:
    """Recipes' names before, by those after, where git takes a file for the other under a new name."""
    words = ["diff", "-M", "--name-status", "--diff-filter=R", "-z", "--relative", asked.old.id]
    told = ask(root, *words, *([asked.new.id] if asked.new else []), "--", "recipes") or ""
    parts = told.split("\0")
    found: dict[str, str] = {}
    for kind, was, now in zip(parts[::3], parts[1::3], parts[2::3], strict=False):
        if kind.startswith("R") and was.startswith("recipes/") and now.startswith("recipes/"):
            found[now.removeprefix("recipes/")] = was.removeprefix("recipes/")
    return found
