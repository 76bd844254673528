"""Earlier formulas of a recipe, found in git where the book is kept in one.

Only reads: `git log` and `git show` of the recipe's own file, a bounded number of
revisions, with the pantry as it stands today.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

from saponary.book import formula
from saponary.book.changes import changes
from saponary.book.library import Book, parse_recipe
from saponary.checks.rule import Case
from saponary.lye.fingerprint import fingerprint, matches
from saponary.lye.formula import Formula

MOST_REVISIONS = 60


def changes_since(book: Book, case: Case) -> dict[str, tuple[str, ...]]:
    """For each batch poured to an earlier formula that git still has: what changed since.

    Keys are the fingerprints as the batches record them. Empty where there is no git.
    """
    wanted = {
        r.batch.formula
        for r in case.batches
        if r.batch.formula is not None and not matches(r.batch.formula, case.fingerprint)
    }
    found: dict[str, tuple[str, ...]] = {}
    if not wanted:
        return found
    for revision in _revisions(book.root, case.file.file):
        old = _formula_at(book, case.file.file, revision)
        if old is None:
            continue
        mark = fingerprint(old)
        for recorded in sorted(wanted - found.keys()):
            if matches(recorded, mark):
                found[recorded] = changes(old, case.built.formula)
        if wanted <= found.keys():
            break
    return found


def _git(root: Path, *words: str) -> str | None:
    try:
        done = subprocess.run(
            ["git", "-C", str(root), *words],
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
    built, _ = formula.build(recipe.model, book.settings, book.pantry, recipe.tree, file)
    return built.formula if built else None
