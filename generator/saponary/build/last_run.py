"""What a command printed when it was last asked the same of a book, while nothing has changed since.

What it rested on is told by stamps (`assets/stamps.py`): the book's files, its history, this program and
its libraries; and, where it wrote, all that stands where it wrote. Imports little: it is asked before
anything that makes a site is.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from saponary.assets.stamps import clock, content, digest_of, fresh, program, sources, stamp, tree
from saponary.assets.store import FOLDER, DiskStore, Key
from saponary.build.git_stamps import history

_STEP = "run"


class Told(NamedTuple):
    """What a run printed, to which stream (`out` or `err`) in its order, and its exit status."""

    status: int
    said: tuple[tuple[str, str], ...]


class _Seen(NamedTuple):
    """Everything that a run rests on, seen at one time."""

    state: str
    fresh: dict[str, str]
    """Of what was changed shortly before, the digest of its bytes, by its path."""


class LastRun:
    """The last run of a command with these words on a book. `words` are all that its result rests on besides."""

    def __init__(self, root: Path, words: Sequence[str]) -> None:
        self._root = root
        self._store = DiskStore(root / FOLDER)
        asked = json.dumps([stamp(__file__), str(root.resolve()), str(root), *words])
        self._key = Key(_STEP, hashlib.sha256(asked.encode("utf-8", "surrogatepass")).hexdigest())
        self._before: _Seen | None = None

    def stands(self, day: str) -> Told | None:
        """What it printed, where nothing it rested on has changed and it spoke of no other day."""
        kept = self._store.recall(self._key)
        if kept is None:
            return None
        found = json.loads(kept)
        if found["day"] not in (None, day) or any(
            content(path) != was for path, was in found["fresh"].items()
        ):
            return None
        folders = [Path(folder) for folder in found["wrote"]]
        if found["state"] != _state(self._root) or found["site"] != digest_of(tree(folders)):
            return None
        told = Told(found["status"], tuple((stream, text) for stream, text in found["said"]))
        if found["fresh"] and (seen := self._seen()) is not None and seen.state == found["state"]:
            self._keep({**found, "fresh": seen.fresh})
        return told

    def begin(self) -> None:
        """Look at everything before it is read."""
        self._before = self._seen()

    def keep(
        self,
        told: Told,
        wrote: Iterable[Path] = (),
        day: str | None = None,
        stamps: Mapping[str, str] | None = None,
    ) -> None:
        """Keep what was printed, unless something was changed meanwhile.

        `wrote` are the folders that were written; `day` is the day that was spoken of, if that matters. `stamps` are
        those of files in these folders as the run saw or wrote them: it does not stand where one was changed since.
        """
        now = self._seen()
        if self._before is None or now is None or now.state != self._before.state:
            return
        if any(content(path) != was for path, was in self._before.fresh.items()):
            return
        folders = [str(folder) for folder in wrote]
        self._keep(
            {
                "day": day,
                "state": now.state,
                "fresh": self._before.fresh,
                "wrote": folders,
                "site": digest_of(tree(map(Path, folders), stamps or {})),
                "status": told.status,
                "said": told.said,
            }
        )

    def _keep(self, found: dict[str, object]) -> None:
        self._store.keep(self._key, json.dumps(found).encode("utf-8"))

    def _seen(self) -> _Seen | None:
        """Everything as it is now; None where the file system cannot be asked the time."""
        now = clock(self._root / FOLDER)
        if now is None:
            return None
        lines = _lines(self._root)
        return _Seen(digest_of(lines), {path: content(path) for path in fresh(lines, now)})


def _lines(root: Path) -> list[str]:
    return [*sources(root), *history(root), *program()]


def _state(root: Path) -> str:
    return digest_of(_lines(root))
