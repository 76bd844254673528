"""Puts the files of a site in place, all at once, and touches nothing there that no build wrote.

The new folder is made aside, in the book's `.saponary/`, and exchanged with the old one in one step. Killed
at any instant, or without power, the folder is the last good site or the new one. A file whose bytes have not
changed is the same file in both, so that it keeps its date. A folder that cannot be exchanged (a mounted
one, or one in a place where nothing may be made) is written file by file; a killed build of it is finished by the next.
So is a large site of which few files change: each is exchanged in one step by itself.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Collection, Mapping, Sequence
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from saponary.assets.disk import beside, clear_parts, flush, flush_all
from saponary.build import exchange, written
from saponary.build.content import Content, content
from saponary.build.survey import Survey, survey
from saponary.build.written import Written


class Refused(Exception):
    """Something is in the way; by its path from the book: what, and what to do. Nothing was written."""

    def __init__(self, faults: Mapping[str, tuple[str, str]]) -> None:
        super().__init__(f"{len(faults)} in the way")
        self.faults = faults


class Laid(NamedTuple):
    """What stands in a folder now: how many files of the build, and the paths of what is somebody else's."""

    files: int
    foreign: tuple[str, ...]
    stamps: Mapping[str, str]
    """Of files of the build, by path: of those that lay there already as they were seen before anything was written,
    so that what somebody changes meanwhile is not taken for the build's."""


ADOPT = "move it away, or have it replaced: saponary build --adopt"
_A_LINK = "empty that folder, or take what lies there for the site: saponary build --adopt"


def write_site(
    site: Path, files: Mapping[str, bytes], *, within: Sequence[str] = ("",), adopt: bool = False
) -> Laid:
    """Plan and write at once."""
    told = {path: content(data) for path, data in files.items()}
    return plan(site, told, within=within, adopt=adopt).write()


def plan(
    site: Path, files: Mapping[str, Content], *, within: Sequence[str] = ("",), adopt: bool = False
) -> Plan:
    """See what is to be done to have files in a site, by path in it. Raises Refused where something is in the way.

    `within` are the parts of the site that are written anew, '' the whole: a file that an earlier build wrote
    there, and that is not among `files`, is removed. The files of other parts stay.
    """
    for name in files:
        if name.startswith("/") or ((name[-1:] in ("", ".") or ".." in name) and not _is_inside(name)):
            raise ValueError(f"{name!r} would be written outside the site")
    place = _place(site, adopt)
    place.recover()
    known = written.read(place.list)
    found = survey(place.folder, known, files, within, adopt=adopt) if place.folder.is_dir() else Survey()
    if found.in_the_way:
        raise Refused({f"{site.name}/{path}": (why, ADOPT) for path, why in found.in_the_way.items()})
    return Plan(place, files, known, found)


def _is_inside(name: str) -> bool:
    """Whether a path leads to something in a folder."""
    parts = PurePosixPath(name).parts
    return bool(parts) and ".." not in parts


class Plan(NamedTuple):
    """Files that may be written, and what lies where they go."""

    place: _Place
    files: Mapping[str, Content]
    known: Written
    found: Survey

    def write(self) -> Laid:
        """Put the files in place. Raises OSError where the disk does not do as asked; the old site stands then."""
        place, files, found = self.place, self.files, self.found
        stay = {path: self.known.files[path] for path in found.kept if path in self.known.files}
        made = {path: frozenset((one.digest,)) for path, one in files.items()}
        now = Written(str(place.folder), stay | made)
        changes = len(found.gone) + len(files) - len(found.same)
        moved = False
        if changes or not place.folder.is_dir():
            both = self.known.joined(now)
            written.save(place.list, both)
            few = changes <= _FEW and len(files) >= _MANY
            moved = place.exchangeable and not found.closed and not few
            if moved:
                _all_at_once(place, files, found, both.files.keys() | found.gone)
            else:
                one_by_one(place.folder, files, found)
        written.save(place.list, now)
        return Laid(len(files), tuple(sorted(found.foreign)), self._note(stay, moved))

    def _note(self, stay: Collection[str], moved: bool) -> Mapping[str, str]:
        """Note what lies there now, and give it; of what stayed unlooked at note what was noted before.

        Files that were moved into a new folder have a new time of change; others are as they were seen.
        """
        known, seen = self.known.stamps, {path: self.found.stamps[path] for path in self.found.same}
        anew = self.files if moved else self.files.keys() - self.found.same
        stamps = {**({} if moved else seen), **written.stamps_of(self.place.folder, anew, seen)}
        noted = stamps | {path: known[path] for path in stay if path in known}
        if noted != known:
            written.note(self.place.list, noted)
        return seen | stamps


class _Place(NamedTuple):
    """Where a site is written: its folder with links followed, the list of what was written, folders aside."""

    folder: Path
    list: Path
    new: Path
    old: Path

    @property
    def exchangeable(self) -> bool:
        """Whether the folder may be exchanged for another."""
        if not self.folder.is_dir():
            return True
        return (
            not os.path.ismount(self.folder)
            and os.access(self.folder.parent, os.W_OK)
            and self.folder.stat().st_dev == self.new.parent.stat().st_dev
        )

    def recover(self) -> None:
        """Put back, or clear away, what a killed build left aside."""
        clear_parts(self.list.parent)
        exchange.put_back(self.old, self.folder)
        for left in (self.new, self.old):
            if not os.path.lexists(left):
                continue
            known = written.read(self.list)
            if left.is_dir() and not known.folder:
                why = "this is left of a build that was killed, and the list of its files is lost"
                raise Refused({left.name: (why, "look at what lies there, and delete it")})
            exchange.clear(left, self.folder, known.files)


def _place(site: Path, adopt: bool) -> _Place:
    """Where a site is to be written. A link is followed into a folder that is empty, or that a build wrote."""
    aside = written.own_folder(site.parent)
    kept = written.list_of(site)
    if site.is_symlink():
        folder = site.resolve()
        if not folder.is_dir():
            why = f"this link leads to {str(folder)!r}, where no folder is"
            raise Refused({site.name: (why, "make that folder, or take the link away")})
        if not adopt and str(folder) != written.read(kept).folder and any(folder.iterdir()):
            why = f"this link leads to {str(folder)!r}, where no build has written and something lies"
            raise Refused({site.name: (why, _A_LINK)})
        token = sha256(os.fsencode(aside.resolve())).hexdigest()[:8]
        new, old = (folder.with_name(f".{folder.name[:80]}-{token}-{age}") for age in ("new", "old"))
        return _Place(folder, kept, new, old)
    if site.exists() and not site.is_dir():
        raise Refused({site.name: ("this is no folder, and the site is written here", "move it away")})
    folder = site.parent.resolve() / site.name
    return _Place(folder, kept, aside / f"{site.name}-new", aside / f"{site.name}-old")


_FEW, _MANY = 40, 2000
"""So few changes, among so many files, are written one by one: to share all others would take a third of a second of work,
and twice that at four thousand."""


def _all_at_once(place: _Place, files: Mapping[str, Content], found: Survey, own: Collection[str]) -> None:
    """Make the new folder aside, whole, and exchange it with the old one."""
    new, folder = place.new, place.folder
    try:
        new.mkdir()
        for name in sorted(written.folders_of(files)):
            (new / name).mkdir()
        fresh: list[Path] = []
        for name, one in files.items():
            target = new / name
            if name not in found.same or not _taken_over(folder / name, target, one):
                target.write_bytes(one.read())
                fresh.append(target)
        exchange.share(folder, new, sorted(found.kept), own)
        exchange.as_before(folder, new)
        flush_all((*fresh, *(Path(home) for home, _, _ in os.walk(new))))
        left = exchange.swap(new, folder, place.old)
    except BaseException:
        exchange.clear(new, folder, own)
        raise
    exchange.clear(left, folder, own)


def _taken_over(old: Path, target: Path, one: Content) -> bool:
    """Put the old site's file, which is of these bytes, in place as it is; False for a copy that must be flushed."""
    try:
        os.link(old, target)
    except OSError:  # a file system without links
        target.write_bytes(one.read())
        shutil.copystat(old, target)
        flush(target)
    return True


def one_by_one(folder: Path, files: Mapping[str, Content], found: Survey) -> None:
    """Write what has changed into the folder itself, pages last, and remove what is no longer wanted."""
    changed = sorted(files.keys() - found.same, key=lambda name: (name.endswith(".html"), name))
    for name in changed:
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        made = beside(target, files[name].read())
        made.chmod(0o644)
        made.replace(target)
    for name in sorted(found.gone):
        (folder / name).unlink(missing_ok=True)
        for above in (folder / name).parents:
            if above == folder or any(above.iterdir()):
                break
            above.rmdir()
    flush_all({folder / name for name in changed} | {(folder / name).parent for name in changed})
