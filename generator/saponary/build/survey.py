"""What lies in a folder before a build writes to it: what builds wrote, what is somebody else's, what is in the way.

Only what a build wrote, and nobody has changed since, is ever replaced or removed. All else stays as
it is; where it stands in the place of a file that is to be written, it is in the way, and nothing is
written. `adopt` lets a file that is in the way be replaced; a folder never is.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from saponary.assets.disk import is_part
from saponary.assets.stamps import numbers
from saponary.build.content import Content
from saponary.build.written import Written, digest, folders_of

NOT_OURS = "no build wrote this file, and one is to be written here"
CHANGED = "this file was changed after it was built"
A_FOLDER = "a folder stands where a file is to be written"
NO_FOLDER = "this stands where a folder is to be"


@dataclass
class Survey:
    """A folder, seen: paths in it, with `/`."""

    same: set[str] = field(default_factory=set[str])
    """Files that are to be written, and are there as they will be."""
    gone: set[str] = field(default_factory=set[str])
    """Files that builds wrote and that are no longer wanted."""
    kept: set[str] = field(default_factory=set[str])
    """What is somebody else's, or of a part that is not written now; folders only where they are empty."""
    foreign: set[str] = field(default_factory=set[str])
    """Of these, what no build wrote."""
    in_the_way: dict[str, str] = field(default_factory=dict[str, str])
    """What stands where something is to be written, and why it is not replaced."""
    stamps: dict[str, str] = field(default_factory=dict[str, str])
    """Of the files that were looked at."""
    closed: set[str] = field(default_factory=set[str])
    """Folders that may not be looked into."""


def survey(
    folder: Path, written: Written, files: Mapping[str, Content], within: Sequence[str], *, adopt: bool
) -> Survey:
    """See what lies in a folder, no link followed. `within` are the parts of it that are written anew."""
    seen = _Surveyor(folder, written, files, tuple(within), adopt)
    for path, entry in _everything(folder, seen.found.closed):
        if not seen.is_as_left(path, entry):
            seen.see(path, entry)
    return seen.found


class _Surveyor:
    def __init__(
        self,
        folder: Path,
        written: Written,
        files: Mapping[str, Content],
        within: tuple[str, ...],
        adopt: bool,
    ) -> None:
        self.folder, self.written, self.files, self.adopt = folder, written, files, adopt
        self.within = within
        self.folders = folders_of(files)
        self.found = Survey()

    def is_as_left(self, path: str, entry: os.DirEntry[str]) -> bool:
        """Whether a file is as a build left it and as it is to be: nearly all are, and are looked at no further."""
        noted, wanted = self.written.stamps.get(path), self.files.get(path)
        if noted is None or wanted is None or self.written.files.get(path) != frozenset((wanted.digest,)):
            return False
        found = entry.stat(follow_symlinks=False)
        if not stat.S_ISREG(found.st_mode) or numbers(found) != noted:
            return False
        self.found.stamps[path] = noted
        self.found.same.add(path)
        return True

    def see(self, path: str, entry: os.DirEntry[str]) -> None:
        if entry.is_dir(follow_symlinks=False):
            self._folder(path)
        elif path in self.folders:
            self.found.in_the_way[path] = NO_FOLDER
        elif path in self.files:
            self._wanted(path)
        elif path in self.written.files:
            self._no_longer_wanted(path)
        elif not self._left_over(path):
            self._keep(path)

    def _folder(self, path: str) -> None:
        if path in self.files:
            self.found.in_the_way[path] = A_FOLDER
        elif path not in self.folders and _is_empty(self.folder / path):
            self._keep(path)

    def _wanted(self, path: str) -> None:
        one = self._digest(path)
        if one == self.files[path].digest:
            self.found.same.add(path)
        elif one not in self.written.files.get(path, ()):
            self._in_the_way(path, CHANGED if path in self.written.files else NOT_OURS)

    def _no_longer_wanted(self, path: str) -> None:
        if not path.startswith(self.within):
            self.found.kept.add(path)
            return
        if self.adopt or self._digest(path) in self.written.files[path]:
            self.found.gone.add(path)
        else:
            self.found.in_the_way[path] = CHANGED

    def _left_over(self, path: str) -> bool:
        """A file that a build was writing when it was killed."""
        part = is_part(PurePosixPath(path).name)
        of = str(PurePosixPath(path).with_name(part)) if part else ""
        if of not in self.files and of not in self.written.files:
            return False
        self.found.gone.add(path)
        return True

    def _keep(self, path: str) -> None:
        self.found.kept.add(path)
        self.found.foreign.add(path)

    def _in_the_way(self, path: str, why: str) -> None:
        if not self.adopt:
            self.found.in_the_way[path] = why

    def _digest(self, path: str) -> str | None:
        """Of a file's bytes; None for what is no plain file. One that is as a build left it is not read."""
        at = self.folder / path
        found = at.lstat()
        if not stat.S_ISREG(found.st_mode):
            return None
        self.found.stamps[path] = numbers(found)
        known = self.written.files.get(path, frozenset())
        if len(known) == 1 and self.written.stamps.get(path) == self.found.stamps[path]:
            return next(iter(known))
        return digest(at.read_bytes())


def _is_empty(folder: Path) -> bool:
    try:
        return not any(folder.iterdir())
    except PermissionError:
        return False


def _everything(folder: Path, closed: set[str]) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Everything in a folder and its folders, by its path in it; a link is no folder. Raises OSError."""
    todo = [""]
    while todo:
        home = todo.pop()
        try:
            with os.scandir(folder / home if home else folder) as entries:
                listed = list(entries)
        except PermissionError:
            if not home:
                raise
            closed.add(home.removesuffix("/"))
            continue
        for entry in listed:
            path = home + entry.name
            if entry.is_dir(follow_symlinks=False):
                todo.append(f"{path}/")
            yield path, entry
