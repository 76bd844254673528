"""Books being made beside each other: parts that are kept are taken from the store, the others are asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saponary.assets.store import Store
from saponary.outputs.grafted.making import BindJob, Making, PartJob
from saponary.outputs.grafted.stored import NoFragment, from_bytes
from saponary.outputs.pdf_kept import keep, recall
from saponary.outputs.pdf_kind import PdfBook, SetPdf
from saponary.outputs.pdf_press import Failed

Wanted = tuple[Making, int, PartJob]
"""A part of a book that is to be set: the book, the part's place in it, and the job."""


class Books:
    """Asked in turns which parts are to be set, until there are none; then its books can be bound."""

    def __init__(self, files: Mapping[str, bytes], books: Sequence[PdfBook], store: Store) -> None:
        self._files, self._store = files, store
        self._makings = [Making(book) for book in books]
        self.failed: dict[str, Failed] = {}

    def jobs(self) -> list[Wanted]:
        """What no store has and is to be set now."""
        while wanted := [
            (making, at, job) for making in self._going_on() for at, job in making.wants().items()
        ]:
            missing = [one for one in wanted if not self._recalled(*one)]
            if missing:
                return missing
        return []

    def take(self, wanted: Wanted, outcome: SetPdf | Failed) -> None:
        """What came of a part."""
        making, at, job = wanted
        if isinstance(outcome, Failed):
            path = making.book.path
            self.failed[path] = Failed(path, f"{outcome.path}: {outcome.why}")
            return
        making.take(at, job, outcome, from_bytes(outcome.data, ours=True))
        keep(self._store, self._files, job, outcome)

    def bound(self) -> list[tuple[Making, BindJob]]:
        """Books whose parts are all there, and the job of binding each."""
        return [(making, making.bind()) for making in self._going_on()]

    def _going_on(self) -> list[Making]:
        return [making for making in self._makings if making.book.path not in self.failed]

    def _recalled(self, making: Making, at: int, job: PartJob) -> bool:
        kept = recall(self._store, self._files, job)
        if kept is None:
            return False
        try:
            making.take(at, job, kept, from_bytes(kept.data))
        except NoFragment:
            return False
        return True
