"""Tells when something that a build reads has changed, once it has been quiet for a moment.

The system's own events are asked (watchdog); where it has none left to give, the folders are gone through
again and again. A folder that is deleted, renamed or put back is noticed by its number. Events of git are
believed only where what git says of the book is another than before, since git writes its index as it reads.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from pathlib import Path, PurePath
from threading import Event

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver, ObservedWatch
from watchdog.observers.polling import PollingObserver

from saponary.assets.stamps import SOURCES
from saponary.build.git_stamps import history

QUIET = 0.012
"""Seconds without an event after which a save is over: an editor's rename, a checkout of hundreds of files."""
CLOSED = 0.003
"""The same where one file alone was touched, and was closed or moved into its place: whoever wrote it has done so."""
LONGEST = 0.5
"""Seconds that are waited for quiet at most."""
LOOK = 0.5
"""Seconds between two looks at whether the folders are still the same ones."""

_TELLING = frozenset({"created", "modified", "moved", "deleted", "closed"})
"""Kinds of event that may mean a change; to open a file and to close it unread are none."""

_GIT = ".git"


class Changes:
    """Watches a book. Used as a context: it watches until that is left."""

    def __init__(self, root: Path) -> None:
        self._root = root.resolve()
        self._happened, self._in_git = Event(), Event()
        self._meant = False
        self._touched = set[str]()
        self._closed = False
        self._watched: dict[Path, tuple[ObservedWatch, int]] = {}
        self._history: list[str] = []
        self._observer: BaseObserver = Observer()
        self._handler = _Handler(self)

    def __enter__(self) -> Changes:
        self._observer.start()
        self._watch()
        self._history = history(self._root)
        return self

    def __exit__(self, *_: object) -> None:
        self._observer.stop()
        self._observer.join()

    def wait(self, seconds: float) -> bool:
        """Wait for a change, so many seconds at most, and for quiet after it; whether there was one."""
        until = time.monotonic() + seconds
        while (left := until - time.monotonic()) > 0:
            self._happened.wait(min(left, LOOK))
            if self._happened.is_set():
                self._settle()
                if self._is_meant():
                    self._watch()
                    return True
            elif self._watch():
                return True
        return False

    def tell(self, path: str, *, closed: bool = False) -> None:
        """Something happened to this path; `closed` where it was written and closed, or moved there."""
        try:
            parts = PurePath(path).relative_to(self._root).parts
        except ValueError:
            parts = ()
        if parts[:1] == (_GIT,) or _GIT in PurePath(path).parts:
            self._in_git.set()
        elif not is_read(parts):
            return
        else:
            self._meant = True
        self._touched.add(path)
        self._closed = closed
        self._happened.set()

    @property
    def quiet(self) -> float:
        """Seconds without an event after which what has happened is over."""
        return CLOSED if self._closed and len(self._touched) == 1 else QUIET

    def _settle(self) -> None:
        """Wait until nothing has happened for a moment."""
        until = time.monotonic() + LONGEST
        while time.monotonic() < until:
            self._happened.clear()
            if not self._happened.wait(self.quiet):
                break
        self._happened.clear()
        self._touched.clear()

    def _is_meant(self) -> bool:
        meant, self._meant = self._meant, False
        if not self._in_git.is_set():
            return meant
        self._in_git.clear()
        before, self._history = self._history, history(self._root)
        return meant or before != self._history

    def _watch(self) -> bool:
        """Watch every folder that is there now; whether one is new, gone or another than before."""
        there = dict(_folders(self._root))
        gone = [path for path, (_, was) in self._watched.items() if there.get(path, (0, False))[0] != was]
        new = [path for path in there if path in gone or path not in self._watched]
        for path in gone:
            watch, _ = self._watched.pop(path)
            self._unschedule(watch)
        for path in new:
            number, deep = there[path]
            self._begin(path, number, deep=deep)
        return bool(gone or new)

    def _begin(self, path: Path, number: int, *, deep: bool) -> None:
        watch = self._schedule(path, deep=deep)
        if watch is not None:
            self._watched[path] = watch, number

    def _unschedule(self, watch: ObservedWatch) -> None:
        try:
            self._observer.unschedule(watch)
        except (KeyError, OSError):
            return  # the system let go of it with its folder

    def _schedule(self, path: Path, *, deep: bool) -> ObservedWatch | None:
        try:
            return self._observer.schedule(self._handler, str(path), recursive=deep)
        except FileNotFoundError:
            return None
        except OSError:
            if isinstance(self._observer, PollingObserver):
                return None
            self._poll()
            return self._schedule(path, deep=deep)

    def _poll(self) -> None:
        """Go on by looking again and again: the system gives no more events (a limit, a network's disk)."""
        self._observer.stop()
        self._observer = PollingObserver(timeout=LOOK)
        self._observer.start()
        old, self._watched = self._watched, {}
        for path, (watch, number) in old.items():
            self._begin(path, number, deep=watch.is_recursive)


def is_read(parts: tuple[str, ...]) -> bool:
    """Whether a build reads a path of the book, by its parts; what editors put beside a file is not read."""
    name = parts[-1] if parts else ""
    return (
        name != "" and parts[0] in SOURCES and not name.startswith(".") and not name.endswith(("~", ".tmp"))
    )


def _folders(root: Path) -> Iterator[tuple[Path, tuple[int, bool]]]:
    """The folders to watch that are there, each with its number and whether all below it counts."""
    yield from _one(root, deep=False)
    for name in SOURCES:
        yield from _one(root / name, deep=True)
    for folder in (root, *root.parents):
        if (folder / _GIT).is_dir():
            yield from _one(folder / _GIT, deep=False)
            yield from _one(folder / _GIT / "refs", deep=True)
            return


def _one(path: Path, *, deep: bool) -> Iterator[tuple[Path, tuple[int, bool]]]:
    try:
        if path.is_dir():
            yield path, (path.stat().st_ino, deep)
    except OSError:
        return


class _Handler(FileSystemEventHandler):
    """Hands on what may mean a change."""

    def __init__(self, changes: Changes) -> None:
        self._changes = changes

    def on_any_event(self, event: FileSystemEvent) -> None:
        # That a folder has changed says no more than what happened in it.
        if event.event_type in _TELLING and not (event.is_directory and event.event_type == "modified"):
            self._changes.tell(os.fsdecode(event.src_path), closed=event.event_type == "closed")
            if event.dest_path:
                self._changes.tell(os.fsdecode(event.dest_path), closed=True)
