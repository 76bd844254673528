"""The pages of a book as a build would write them now. A page is made when it is asked for, and nothing is written.

Where errors stop a build, the pages stay those of the last state without any.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from threading import Lock

from saponary.assets.store import FOLDER, DiskStore
from saponary.build.proof import Proof, prove
from saponary.build.put_editions import PRIVATE, SITE, home
from saponary.build.site import Stopped, Unmade, unmade
from saponary.build.unwritten import of_disk
from saponary.outputs.filling import BrokenTemplate
from saponary.reading.files import is_book
from saponary.reading.findings import Finding, Place
from saponary.schema.edition import PUBLIC, Edition, editions
from saponary.watch.state import State, in_order

INDEX = "index.html"


class Preview:
    """A book that is looked at again and again, and the pages of its last good state. Threads may share one."""

    def __init__(self, root: Path, asked: Sequence[str] = ()) -> None:
        self._root, self._asked = root, asked
        self._lock = Lock()
        self._store = DiskStore(root / FOLDER)
        self._pages: dict[str, _Edition] = {}
        self.state = State(0)

    def look(self, on: date, workers: int | None = 1) -> State:
        """Read and check the book as it is now; the new state. Waits for pages that are being made.

        More workers than one are copies of this process, and for one that has no threads yet.
        """
        with self._lock:
            begun = time.perf_counter()
            findings, recipes = self._look(on, workers)
            self.state = State(
                self.state.number + 1,
                in_order(findings),
                tuple((name, f"/{pages.folder}") for name, pages in self._pages.items()),
                recipes,
                time.perf_counter() - begun,
                bool(self._pages),
            )
            return self.state

    def page(self, path: str) -> bytes | None:
        """The file at a path of the site, from its top without a slash; None where there is none.

        A template that fails while the page is made is told in the next state.
        """
        with self._lock:
            found = max(
                (one for one in self._pages.values() if path.startswith(one.folder)),
                key=lambda one: len(one.folder),
                default=None,
            )
            if found is None:
                return None
            try:
                return found.file(path.removeprefix(found.folder))
            except BrokenTemplate as broken:
                self._add(broken.finding)
                return None

    def _add(self, finding: Finding) -> None:
        now = self.state
        if finding not in now.findings:
            findings = in_order((*now.findings, finding))
            self.state = State(
                now.number + 1, findings, now.editions, now.recipes, now.seconds, shows=now.shows
            )

    def _look(self, on: date, workers: int | None) -> tuple[Sequence[Finding], int]:
        if not is_book(self._root):
            gone = "there is no book here any more: neither recipes/ nor book.yaml"
            return [Finding("writing", "error", Place("."), gone, "put it back, and it is shown again")], 0
        try:
            proof = prove(self._root, self._store, workers)
            if proof.failed:
                return proof.findings, len(proof.recipes)
            self._pages = self._cut(proof, on)
            return proof.findings, len(proof.recipes)
        except Stopped as stopped:
            return stopped.findings, 0
        except OSError as error:  # a file vanished between being listed and being read
            return [of_disk(error, self._root)], 0

    def _cut(self, proof: Proof, on: date) -> dict[str, _Edition]:
        wanted = self._editions(proof)
        made = unmade(proof, on, wanted, self._store)
        return {edition.name: _Edition(edition, one) for edition, one in made}

    def _editions(self, proof: Proof) -> list[Edition]:
        """Those asked for and known; without any, all that the book has, the public one first."""
        known = editions(proof.book.settings.editions)
        names = [name for name in self._asked if name in known] or [PUBLIC, *known]
        return [known[name] for name in dict.fromkeys(names)]


class _Edition:
    """The pages of an edition, none of them made before it is asked for."""

    def __init__(self, edition: Edition, made_from: Unmade) -> None:
        place = home(edition)
        self.folder = place.removeprefix(f"{PRIVATE}/").removeprefix(f"{SITE}/")
        self._from = made_from
        self._made: dict[str, bytes] = {}

    def file(self, path: str) -> bytes | None:
        name = f"{path}{INDEX}" if not path or path.endswith("/") else path
        if name not in self._made:
            made = self._from.file(name)
            if made is None:
                return None
            self._made[name] = made
        return self._made[name]
