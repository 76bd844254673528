"""Stamps of what git says of a book: its last commit, what is staged, and the settings it goes by.

Where they are equal, and the book's own files are, so is every answer of git that a page rests on.
Nothing is run and nothing but stamps and the name of the last commit is read.
"""

from __future__ import annotations

import os
from pathlib import Path

from saponary.assets.stamps import stamp

_OF_TREE = ("HEAD", "index")
_OF_REPOSITORY = (
    "packed-refs",
    "shallow",
    "config",
    "config.worktree",
    "reftable/tables.list",
    "info/exclude",
    "info/attributes",
    "info/grafts",
)
_RULES = (".gitignore", ".gitattributes")


def history(root: Path) -> list[str]:
    """Stamps of the history that holds a folder; where none does, of the places where one would begin."""
    lines: list[str] = []
    for folder in (here := root.resolve(), *here.parents):
        lines += [stamp(str(folder / name)) for name in _RULES]
        kept = folder / ".git"
        if kept.exists():
            return [
                *lines,
                *(stamp(str(root / name / rule)) for name in ("recipes", ".") for rule in _RULES),
                *_of(kept),
            ]
    return ["no history"]


def _of(kept: Path) -> list[str]:
    """Stamps inside `.git`, which may be a file that names the folder."""
    tree = kept if kept.is_dir() else kept.parent / _first_line(kept).removeprefix("gitdir: ")
    common = tree / (_first_line(tree / "commondir") or ".")
    head = _first_line(tree / "HEAD").removeprefix("ref: ")
    home = Path(os.environ.get("HOME", "/"))
    own = Path(os.environ.get("XDG_CONFIG_HOME") or home / ".config") / "git"
    paths = (
        *(tree / name for name in _OF_TREE),
        *(common / name for name in (head, *_OF_REPOSITORY)),
        *(own / name for name in ("config", "ignore", "attributes")),
        home / ".gitconfig",
        Path("/etc/gitconfig"),
    )
    return [str(tree), head, *(stamp(str(path)) for path in paths)]


def _first_line(file: Path) -> str:
    try:
        return file.read_text("utf-8", "surrogateescape").partition("\n")[0]
    except OSError:
        return ""
