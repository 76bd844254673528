"""The pages of a book as a build would write them now. A page is made when it is asked for, and nothing is written.

Where errors stop a build, the pages stay those of the last state without any. Those of a recipe that nobody has
signed stop none, and leave its own pages as they were.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import date
from functools import cached_property, partial
from pathlib import Path, PurePosixPath
from threading import Lock

from saponary.assets.store import FOLDER, DiskStore
from saponary.build.proof import Left, Proof, prove, prove_again
from saponary.build.put_editions import PRIVATE, SITE, home
from saponary.build.site import Stopped
from saponary.build.unfinished import without_unfinished
from saponary.build.unmade import LastShown, Unmade, unmade
from saponary.build.unwritten import of_disk
from saponary.outputs.filling import BrokenTemplate
from saponary.reading.files import Folder, is_book
from saponary.reading.findings import Finding, Place
from saponary.reading.remembered import Held, Remembered
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
        self._left: Left | None = None
        self._left_out = frozenset[str]()
        self._texts: Mapping[str, Held] = {}
        self._shown = LastShown({}, {})
        self._before: object = None
        self.state = State(0)

    def look(self, on: date, workers: int | None = 1) -> State:
        """Read and check the book as it is now; the new state. Waits for pages that are being made.

        More workers than one are copies of this process, and for one that has no threads yet.
        """
        with self._lock:
            begun = time.perf_counter()
            self._before = self._left, self._pages
            findings, recipes = self._look(on, workers)
            self.state = State(
                self.state.number + 1,
                in_order(findings),
                tuple((name, f"/{pages.folder}") for name, pages in self._pages.items()),
                recipes,
                time.perf_counter() - begun,
                bool(self._pages),
                self._left_out,
            )
            return self.state

    def rest(self) -> None:
        """Let go of what was shown before: that takes as long as a page, and nobody waits for it."""
        with self._lock:
            self._before = None

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
                self._add([broken.finding])
            except Stopped as stopped:
                self._add(stopped.findings)
                return self._earlier(found, path.removeprefix(found.folder))
            except OSError as error:  # a file was changed since, and the next look has not come yet
                self._add([of_disk(error, self._root)])
            return None

    def _earlier(self, shown: _Edition, path: str) -> bytes | None:
        """A file of the last state that could be shown; where there was none, there is nothing to show yet."""
        with suppress(Stopped):
            if shown.before is not None:
                return shown.before.file(path)
        self.state = replace(self.state, shows=False)
        return None

    def _add(self, findings: Sequence[Finding]) -> None:
        now = self.state
        new = [one for one in findings if one not in now.findings]
        if new:
            self.state = replace(now, number=now.number + 1, findings=in_order((*new, *now.findings)))

    def _look(self, on: date, workers: int | None) -> tuple[Sequence[Finding], int]:
        if not is_book(self._root):
            gone = "there is no book here any more: neither recipes/ nor book.yaml"
            return [Finding("writing", "error", Place("."), gone, "put it back, and it is shown again")], 0
        try:
            # What the last look left behind is at hand: to write it and read it again takes as long as the rest.
            files = Remembered(Folder(self._root))
            if self._left is None:
                proof = prove(self._root, self._store, workers, files)
            else:
                proof = prove_again(self._root, self._left, workers, files)
            self._left = proof.left
            self._texts = files.hold(proof.book.digests, self._texts)
            sound, unfinished = without_unfinished(proof)
            self._left_out = frozenset(unfinished)
            if not sound.failed:
                cut = partial(unmade, sound, on, store=self._store, last=self._shown)
                self._show({one.name: _Edition(one, cut) for one in self._editions(proof)})
            return proof.findings, len(proof.recipes)
        except OSError as error:  # a file vanished between being listed and being read
            return [of_disk(error, self._root)], 0

    def _show(self, pages: Mapping[str, _Edition]) -> None:
        """Have these pages in the place of those before, which stay at hand until these have been cut and leave out
        nothing."""
        slugs = frozenset(PurePosixPath(file).stem for file in self._left_out)
        for name, was in self._pages.items():
            if name in pages:
                pages[name].follow(was, slugs)
            else:
                was.let_go()
        self._pages = dict(pages)

    def _editions(self, proof: Proof) -> list[Edition]:
        """Those asked for and known; without any, all that the book has, the public one first."""
        known = editions(proof.book.settings.editions)
        names = [name for name in self._asked if name in known] or [PUBLIC, *known]
        return [known[name] for name in dict.fromkeys(names)]


class _Edition:
    """The pages of an edition. It is cut from the book, and its pages are made, when one is asked for."""

    def __init__(self, edition: Edition, cut: Callable[[Edition], Unmade]) -> None:
        self.folder = home(edition).removeprefix(f"{PRIVATE}/").removeprefix(f"{SITE}/")
        self._edition, self._cut = edition, cut
        self._made: dict[str, bytes] = {}
        self._left_out = frozenset[str]()
        """Recipes that it leaves out: their pages are those of `before`."""
        self.before: _Edition | None = None
        """What was shown before it, the last that left out nothing."""

    @cached_property
    def _unmade(self) -> Unmade:
        made = self._cut(self._edition)
        if self.before is not None and not self._left_out:
            self.before.let_go()
            self.before = None
        return made

    @property
    def _is_cut(self) -> bool:
        return "_unmade" in self.__dict__

    def follow(self, was: _Edition, left_out: frozenset[str]) -> None:
        """Stand in the place of another, and leave out these recipes, which it may have had."""
        self._left_out = left_out
        whole = not was._left_out and (was._is_cut or was.before is None)
        self.before = was if whole else was.before
        if self.before is not was:
            was.let_go()

    def let_go(self) -> None:
        """It is shown no more."""
        if self._is_cut:
            self._unmade.let_go()

    def file(self, path: str) -> bytes | None:
        """A file by its path in the edition. Raises BrokenTemplate, or Stopped where photos cannot be used."""
        name = f"{path}{INDEX}" if not path or path.endswith("/") else path
        if name not in self._made:
            made = self._unmade.file(name)
            if made is None and self.before is not None and self._is_left_out(name):
                return self.before.file(path)
            if made is None:
                return None
            self._made[name] = made
        return self._made[name]

    def _is_left_out(self, path: str) -> bool:
        return not self._left_out.isdisjoint(path.split("/"))
