"""A folder that is kept in git: questions to git, and the folder's files as a revision holds them.

Only reads, and never over the network. A book may come from a stranger with its history, so no program is run
that the repository's own settings or attributes name. Objects of the repository come through one process,
however many are asked for.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import IO, NamedTuple

from saponary.reading.files import MAX_FILE_BYTES, Unread, too_large

_SETTINGS = {
    "core.fsmonitor": "false",
    "core.hooksPath": os.devnull,
    "diff.external": "",
    "diff.ignoreSubmodules": "all",
    "diff.orderFile": os.devnull,
    "log.showRoot": "true",
    "log.showSignature": "false",
    "submodule.recurse": "false",
}
"""What holds whatever the repository says: nothing that it names is run."""
_ALONE = [
    "git",
    "--no-optional-locks",
    "--no-pager",
    *(word for name, value in _SETTINGS.items() for word in ("-c", f"{name}={value}")),
]
_OFFLINE = {"GIT_NO_LAZY_FETCH": "1", "GIT_TERMINAL_PROMPT": "0", "GIT_ALLOW_PROTOCOL": ""}
_OF_FOLDER = ("status", "diff")
"""What looks at the files of the folder: git would pass them through the programs that its attributes name."""
_FOLDER, _LINK = "40000", "120000"
_CHUNK = 1 << 20


def ask(root: Path, *words: str) -> str | None:
    """What git says in a folder; None where there is no git, no repository, or no answer."""
    done = _asked(root, words, _no_filters(root) if words[0] in _OF_FOLDER else {})
    return done.decode("utf-8", "replace") if done is not None else None


def _asked(root: Path, words: Sequence[str], more: Mapping[str, str]) -> bytes | None:
    if not _may_be_kept(root):
        return None
    try:
        done = subprocess.run(
            [*_ALONE, "-C", str(root), *words],
            capture_output=True,
            timeout=20,
            check=False,
            stdin=subprocess.DEVNULL,
            env={**os.environ, **_OFFLINE, **more},
        )
    except (OSError, subprocess.TimeoutExpired):
        return None
    return done.stdout if done.returncode == 0 else None


def _no_filters(root: Path) -> dict[str, str]:
    """Variables for git by which every filter that its settings define is none."""
    told = _asked(root, ("config", "--null", "--name-only", "--get-regexp", r"^filter\."), {}) or b""
    names = {os.fsdecode(key).rpartition(".")[0] for key in told.split(b"\0") if key}
    off = [
        (f"{name}.{key}", value)
        for name in sorted(names)
        for key, value in (("clean", ""), ("process", ""), ("required", "false"))
    ]
    first = int(given) if (given := os.environ.get("GIT_CONFIG_COUNT", "")).isdecimal() else 0
    found = {"GIT_CONFIG_COUNT": str(first + len(off))}
    for number, (name, value) in enumerate(off, first):
        found |= {f"GIT_CONFIG_KEY_{number}": name, f"GIT_CONFIG_VALUE_{number}": value}
    return found


def _may_be_kept(root: Path) -> bool:
    """Whether git has to be asked at all: to start it takes as long as to look at a hundred recipes."""
    if any(name.startswith("GIT_DIR") for name in os.environ):
        return True
    here = root.resolve()
    return any((folder / ".git").exists() for folder in (here, *here.parents)) or (here / "HEAD").is_file()


class Objects:
    """The objects of a repository, through one `git cat-file`."""

    def __init__(self, asked: IO[bytes], told: IO[bytes], inside: str) -> None:
        self._asked, self._told = asked, told
        self.inside = inside
        """The folder's path in the repository, empty or ending in a slash."""

    def get(self, name: str) -> tuple[str, bytes, int] | None:
        """An object's id, its bytes and how many it has: of one that is too large to be a file of a book, no bytes.
        None where there is none of that name."""
        if "\n" in name:  # it would be taken for two
            return None
        self._asked.write(name.encode("utf-8", "surrogateescape") + b"\n")
        self._asked.flush()
        head = self._told.readline().split()
        if len(head) != 3 or not head[2].isdigit():
            return None
        size = int(head[2])
        data = self._told.read(size) if size <= MAX_FILE_BYTES else b""
        left = size - len(data)
        while left > 0 and (passed := self._told.read(min(left, _CHUNK))):
            left -= len(passed)
        self._told.read(1)
        return head[0].decode(), data, size


@contextmanager
def objects(root: Path) -> Generator[Objects | None, None, None]:
    """The objects of the repository that holds a folder; None where none does."""
    inside = ask(root, "rev-parse", "--show-prefix")
    if inside is None:
        yield None
        return
    process = subprocess.Popen(
        [*_ALONE, "-C", str(root), "cat-file", "--batch"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, **_OFFLINE},
    )
    assert process.stdin is not None and process.stdout is not None
    try:
        yield Objects(process.stdin, process.stdout, inside.rstrip("\n"))
    finally:
        process.stdin.close()
        process.stdout.close()
        process.wait()


class _Entry(NamedTuple):
    """What a folder of a revision holds under one name."""

    mode: str
    id: str


class Revision:
    """The files of a book as a revision holds them. Links are not followed."""

    def __init__(self, root: Path, held: Objects, revision: str) -> None:
        self.root = root
        self._held, self._revision = held, revision
        self._folders: dict[str, dict[str, _Entry]] = {}

    def id(self, name: str) -> str | None:
        """The id of a file's content: the same where its bytes are."""
        entry = self._entry(name)
        return entry.id if entry is not None else None

    def has(self, name: str) -> bool:
        return self._entry(name) is not None

    def read(self, name: str) -> bytes | Unread:
        entry = self._entry(name)
        if entry is not None and entry.mode == _LINK:
            return Unread("this is a link, and is not followed", "put the file itself into the book")
        found = self._held.get(entry.id) if entry is not None and entry.mode != _FOLDER else None
        if found is None:
            return Unread("this is not a file", "a text file is needed here")
        return too_large(found[2]) if found[2] > MAX_FILE_BYTES else found[1]

    def names(self, folder: str) -> list[str] | Unread:
        entry = self._entry(folder)
        if entry is not None and entry.mode != _FOLDER:
            return Unread(f"the {folder} cannot be read", f"{folder}/ is a folder")
        return sorted(self._folder(folder))

    def below(self, folder: str) -> frozenset[str]:
        found: set[str] = set()
        todo = [folder]
        while todo:
            at = todo.pop()
            for name, entry in self._folder(at).items():
                path = f"{at}/{name}"
                if entry.mode == _FOLDER:
                    todo.append(path)
                elif entry.mode != _LINK:
                    found.add(path.removeprefix(f"{folder}/"))
        return frozenset(found)

    def _entry(self, name: str) -> _Entry | None:
        path = PurePosixPath(name)
        return self._folder("" if str(path.parent) == "." else str(path.parent)).get(path.name)

    @cached_property
    def _top(self) -> str | None:
        """The id of the book's folder in this revision."""
        found = self._held.get(f"{self._revision}:{self._held.inside}")
        return found[0] if found is not None else None

    def _folder(self, folder: str) -> dict[str, _Entry]:
        """What a folder of the book holds, by name; nothing where there is no such folder."""
        if folder not in self._folders:
            entry = self._entry(folder) if folder else None
            id = self._top if not folder else entry.id if entry and entry.mode == _FOLDER else None
            found = self._held.get(id) if id is not None else None
            self._folders[folder] = _entries(found[1], len(id) // 2) if found and id else {}
        return self._folders[folder]


def _entries(tree: bytes, width: int) -> dict[str, _Entry]:
    """A tree object's entries: mode, space, name, nought, and the id in `width` bytes, one after another."""
    entries: dict[str, _Entry] = {}
    at = 0
    while at < len(tree):
        end = tree.index(b"\0", at)
        mode, _, name = tree[at:end].partition(b" ")
        id = tree[end + 1 : end + 1 + width].hex()
        entries[name.decode("utf-8", "surrogateescape")] = _Entry(mode.decode(), id)
        at = end + 1 + width
    return entries
