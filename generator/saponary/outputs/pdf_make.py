"""Makes the PDFs of an edition: recalls those that are kept, and has the others set."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from saponary.assets.store import NoStore, Store
from saponary.outputs.pdf_books import Books
from saponary.outputs.pdf_engine import ready
from saponary.outputs.pdf_kept import keep, recall
from saponary.outputs.pdf_kind import PdfBook, PdfContext, PdfSheet, SetPdf, Wanted
from saponary.outputs.pdf_press import Failed, Press
from saponary.outputs.pdfs import KINDS


def sheets(context: PdfContext, only: Sequence[str] = ()) -> list[Wanted]:
    """Every sheet of an edition, composed; `only` names the kinds wanted (all where empty)."""
    return [
        sheet
        for kind in KINDS
        if (not only or kind.name in only) and (kind.needs is None or context.site.shows(kind.needs))
        for sheet in kind.render(context)
    ]


Progress = Callable[[int, int], None]
"""Told how many are done, sheets and parts of books, of how many."""


def make(
    files: Mapping[str, bytes],
    wanted: Sequence[Wanted],
    progress: Progress | None = None,
    store: Store | None = None,
    workers: int | None = None,
) -> tuple[dict[str, bytes], list[Failed]]:
    """PDFs by path, and those that failed. What `store` keeps is not set again.

    Raises PressMissing where one is to be set and none can be.
    """
    making = _Making(files, store or NoStore(), progress, workers)
    making.recall(wanted)
    if making.missing:
        ready()
        making.set()
    return making.made, making.failed


class _Making:
    def __init__(
        self, files: Mapping[str, bytes], store: Store, progress: Progress | None, workers: int | None
    ) -> None:
        self._files, self._store, self._progress, self._workers = files, store, progress, workers
        self._done = self._count = 0
        self.made: dict[str, bytes] = {}
        self.failed: list[Failed] = []
        self.missing: list[Wanted] = []

    def recall(self, wanted: Sequence[Wanted]) -> None:
        for one in wanted:
            kept = recall(self._store, self._files, one)
            if kept is None:
                self.missing.append(one)
            else:
                self.made[one.path] = kept.data
        self._done, self._count = len(self.made), len(wanted)

    def set(self) -> None:
        """Sheets and parts of books beside each other, then the books."""
        sheets = [one for one in self.missing if isinstance(one, PdfSheet)]
        books = Books(self._files, [one for one in self.missing if isinstance(one, PdfBook)], self._store)
        parts = books.jobs()
        self._count += len(parts)
        with Press(self._files, self._workers) as press:
            while sheets or parts:
                for at, outcome in press.each([*sheets, *(job for _, _, job in parts)]):
                    if at < len(sheets):
                        self._take(sheets[at], outcome)
                    else:
                        books.take(parts[at - len(sheets)], outcome)
                        self._tell()
                sheets, parts = [], books.jobs()
        bound = books.bound()
        # Those who set the parts have grown, and would stand by while the book is bound.
        with Press(self._files, self._workers) as press:
            for at, outcome in press.each([job for _, job in bound]):
                self._take(bound[at][0].book, outcome, bound[at][0].shown())
        self.failed += books.failed.values()

    def _take(self, one: Wanted, outcome: SetPdf | Failed, shown: tuple[str, ...] = ()) -> None:
        """What came of one; a book shows what its parts do."""
        if isinstance(outcome, Failed):
            self.failed.append(outcome)
        else:
            keep(self._store, self._files, one, SetPdf(outcome.data, (*outcome.shown, *shown)))
            self.made[one.path] = outcome.data
        self._tell()

    def _tell(self) -> None:
        self._done = min(self._done + 1, self._count)
        if self._progress is not None:
            self._progress(self._done, self._count)
