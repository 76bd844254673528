"""What moved the figures that a recipe signed: found in git, at the commit that brought them into its file.

That commit is computed by today's engine and tables, with the pantry and settings it had. What comes out
otherwise than it was signed there, the engine or a table moved; what differs between there and now, the
maker's own files moved. Only reads.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from typing import Literal, NamedTuple

from saponary.assets.store import Store
from saponary.book.figure import FINGERPRINT
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.book.library import read_recipe
from saponary.book.moved import Moved
from saponary.build.came_to import Drifted
from saponary.build.compare import changed_in
from saponary.build.compared_side import Side
from saponary.build.weighed import drifted
from saponary.reading.files import Files, Folder
from saponary.reading.git import Revision, objects
from saponary.reading.git_log import Commit, commits, followed

Program = Literal["tables", "engine", "engine or tables"]
"""What of the program moved a figure. The fingerprint covers every value of a table that goes into lye, water
and superfat: where it holds, the engine did. Where none was signed, either may have."""


class Since(NamedTuple):
    """What happened to a recipe since its figures were signed in `commit`: the maker's files that differ and the
    figures that they moved, by today's engine; and the figures that the program alone moved."""

    commit: Commit
    files: tuple[str, ...]
    moved: tuple[Moved, ...]
    program: Program | None
    alone: tuple[Drifted, ...]


def since_signed(root: Path, recipes: Collection[str], store: Store) -> Mapping[str, Since]:
    """By file, of those recipes whose signed figures stand in a commit as they stand in the folder."""
    found: dict[str, Since] = {}
    with objects(root) as held:
        if held is None:
            return found
        now = Side(Folder(root), store)
        sides: dict[str, Side] = {}
        for file, (commit, name) in _signed_in(root, recipes, lambda id: Revision(root, held, id)).items():
            then = sides.setdefault(commit.id, Side(Revision(root, held, commit.id), store))
            found[file] = _since(file, name, commit, then, now)
    return found


def _signed_in(
    root: Path, recipes: Collection[str], at: Callable[[str], Files]
) -> dict[str, tuple[Commit, str]]:
    """By file, the commit that brought its signed figures as they stand in the folder, and what it was called there."""
    folder = Folder(root)
    wanted = {file: signed for file in recipes if (signed := _signed(folder, file))}
    found: dict[str, tuple[Commit, str]] = {}
    open_ = dict(wanted)
    for commit, names in followed(commits(root, ["recipes"]) if wanted else (), wanted):
        for file, then in names:
            if file not in open_:
                continue
            if _signed(at(commit.id), then) == open_[file]:
                found[file] = commit, then
            else:
                del open_[file]
        if not open_:
            break
    return found


def _signed(files: Files, file: str) -> Mapping[str, str]:
    """What a recipe has signed; nothing where it cannot be read."""
    model = read_recipe(files, file.removeprefix("recipes/")).model if files.has(file) else None
    return model.signed if model is not None else {}


def _since(file: str, was: str, commit: Commit, then: Side, now: Side) -> Since:
    """`was` is what it was called in that commit."""
    name, earlier = file.removeprefix("recipes/"), was.removeprefix("recipes/")
    before = then.came_to({earlier})[earlier]
    rows = list(drifted(name, before))
    program: Program | None = None
    if rows:
        told = any(row.name == FINGERPRINT for row in rows)
        signed = FINGERPRINT in before.signed
        program = "tables" if told else "engine" if signed else "engine or tables"
    changed = changed_in(name, before, now.came_to({name})[name])
    moved = changed.moved if changed is not None else ()
    files = _differ(file, was, then, now) if moved else ()
    return Since(commit, tuple(files), moved, program, tuple(rows))


def _differ(file: str, was: str, then: Side, now: Side) -> Iterator[str]:
    if then.digest_of(was) != now.digest_of(file):
        yield file
    yield from (one for one in (PANTRY_FILE, SETTINGS_FILE) if then.digest_of(one) != now.digest_of(one))
