"""Earlier formulas of a recipe, and when its sources last changed, from git where the book is kept in one.

Only reads. Of earlier formulas a bounded number of revisions, with the pantry as it stands today.
"""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path

from saponary.book.changes import changes
from saponary.book.computed import Computed
from saponary.book.library import Book, parse_recipe
from saponary.book.resolve import resolve
from saponary.lye.fingerprint import fingerprint, matches
from saponary.lye.formula import Formula
from saponary.views.site import Changed

MOST_REVISIONS = 60
_COMMON = ("pantry.yaml", "book.yaml")


def changes_since(book: Book, computed: Computed) -> dict[str, tuple[str, ...]]:
    """For each batch poured to an earlier formula that git still has: what changed since.

    Keys are the fingerprints as the batches record them. Empty where there is no git.
    """
    wanted = {
        r.batch.formula
        for r in computed.batches
        if r.batch.formula is not None and not matches(r.batch.formula, computed.fingerprint)
    }
    found: dict[str, tuple[str, ...]] = {}
    if not wanted:
        return found
    for revision in _revisions(book.root, computed.file.file):
        old = _formula_at(book, computed.file.file, revision)
        if old is None:
            continue
        mark = fingerprint(old)
        for recorded in sorted(wanted - found.keys()):
            if matches(recorded, mark):
                found[recorded] = changes(old, computed.resolved.formula)
        if wanted <= found.keys():
            break
    return found


def last_changes(book: Book) -> dict[str, Changed]:
    """When each recipe's sources last changed: its own file, the pantry and the book's settings.

    Recipes that git does not hold are not in it. Where there is no git, or only the end of a
    history, none is.
    """
    whole = _git(book.root, "rev-parse", "--is-shallow-repository")
    if whole is None or whole.strip() != "false":
        return {}
    sources = ("--", "recipes", *_COMMON)
    dates: dict[str, date] = {}
    on: date | None = None
    logged = _git(book.root, "log", "--date=short", "--format=%x01%cd", "--name-only", "--relative", *sources)
    for line in (logged or "").splitlines():
        if line.startswith("\x01"):
            on = date.fromisoformat(line[1:])
        elif line and on is not None:
            dates[line] = max(on, dates.get(line, on))
    held = _names(book.root, "ls-files", *sources)
    edited = _edited(book.root, *sources)
    found: dict[str, Changed] = {}
    for recipe in book.recipes:
        own = {recipe.file, *_COMMON}
        if recipe.file in held & dates.keys():
            latest = max(dates[name] for name in own & dates.keys())
            found[recipe.slug] = Changed(latest, bool(own & edited))
    return found


def _edited(root: Path, *sources: str) -> set[str]:
    """Files that differ from what is committed, or are not in it."""
    inside = (_git(root, "rev-parse", "--show-prefix") or "").strip("\n")
    told = _git(root, "status", "--porcelain", "-z", "--no-renames", "--untracked-files=all", *sources)
    return {line[3:].removeprefix(inside) for line in (told or "").split("\0") if line}


def _names(root: Path, *words: str) -> set[str]:
    return set((_git(root, *words) or "").splitlines())


def _git(root: Path, *words: str) -> str | None:
    try:
        done = subprocess.run(
            ["git", "--no-optional-locks", "-C", str(root), *words],
            capture_output=True,
            timeout=20,
            check=False,
            stdin=subprocess.DEVNULL,
        )
    except (OSError, subprocess.TimeoutExpired):
        return None
    return done.stdout.decode("utf-8", "replace") if done.returncode == 0 else None


def _revisions(root: Path, file: str) -> list[str]:
    listed = _git(root, "log", f"--max-count={MOST_REVISIONS}", "--format=%H", "--", file)
    return listed.split() if listed else []


def _formula_at(book: Book, file: str, revision: str) -> Formula | None:
    text = _git(book.root, "show", f"{revision}:./{file}")
    if text is None:
        return None
    recipe = parse_recipe(file, text)
    if recipe.model is None:
        return None
    built, _ = resolve(recipe.model, book.settings, book.pantry, recipe.tree, file)
    return built.formula if built else None
