"""Sets the sheets of an edition, several at a time, each in a process of its own kind."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_all_start_methods, get_context

from saponary.assets.store import NoStore, Store
from saponary.assets.undisturbed import end_with_parent, ended_with_us, undisturbed
from saponary.outputs.pdf_engine import SetPdf, ready, set_sheet
from saponary.outputs.pdf_kept import keep, recall
from saponary.outputs.pdf_kind import PdfContext, PdfSheet
from saponary.outputs.pdfs import KINDS
from saponary.quantity.dataclass import dataclass


@dataclass(frozen=True)
class Failed:
    """A sheet that could not be set, and why."""

    path: str
    why: str


def sheets(context: PdfContext, only: Sequence[str] = ()) -> list[PdfSheet]:
    """Every sheet of an edition, composed; `only` names the kinds wanted (all where empty)."""
    return [
        sheet
        for kind in KINDS
        if (not only or kind.name in only) and (kind.needs is None or context.site.shows(kind.needs))
        for sheet in kind.render(context)
    ]


Progress = Callable[[int, int], None]
"""Told how many sheets are done, of how many."""


def make(
    files: Mapping[str, bytes],
    wanted: Sequence[PdfSheet],
    progress: Progress | None = None,
    store: Store | None = None,
) -> tuple[dict[str, bytes], list[Failed]]:
    """PDFs by path, and those that failed. Those that `store` keeps are not set again.

    Raises PressMissing where one is to be set and none can be.
    """
    store = store or NoStore()
    kept = {sheet.path: recall(store, files, sheet) for sheet in wanted}
    missing = [sheet for sheet in wanted if kept[sheet.path] is None]
    told = _from(progress, len(wanted) - len(missing), len(wanted))
    outcomes = _set_all(files, missing, told) if missing else {}
    for sheet in missing:
        outcome = outcomes[sheet.path]
        if isinstance(outcome, SetPdf):
            keep(store, files, sheet, outcome.shown, outcome.data)
            kept[sheet.path] = outcome.data
    made = {path: data for path, data in kept.items() if data is not None}
    return made, [outcome for outcome in outcomes.values() if isinstance(outcome, Failed)]


def _from(progress: Progress | None, kept: int, whole: int) -> Progress | None:
    """Progress that counts those that need not be set as done."""
    return None if progress is None else lambda done, _: progress(kept + done, whole)


def _set_all(
    files: Mapping[str, bytes], wanted: Sequence[PdfSheet], progress: Progress | None
) -> dict[str, SetPdf | Failed]:
    """What came of setting each sheet, by its path."""
    ready()
    workers = max(1, min(len(wanted), os.cpu_count() or 1))
    outcomes = _set(files, wanted, workers, progress)
    # A worker that is ended takes those beside it along: each of them is tried once more, by itself.
    outcomes = [
        _set(files, [sheet], 1)[0] if outcome is None else outcome
        for sheet, outcome in zip(wanted, outcomes, strict=True)
    ]
    lost = "the process setting it was ended from outside; was there memory enough?"
    return {
        sheet.path: Failed(sheet.path, lost) if outcome is None else outcome
        for sheet, outcome in zip(wanted, outcomes, strict=True)
    }


def _set(
    files: Mapping[str, bytes], wanted: Sequence[PdfSheet], workers: int, progress: Progress | None = None
) -> list[SetPdf | Failed | None]:
    """An outcome for each sheet; None where its worker was ended."""
    methods = get_all_start_methods()
    context = get_context("forkserver" if "forkserver" in methods else "spawn")
    with (
        tempfile.TemporaryDirectory(prefix="saponary-", ignore_cleanup_errors=True) as scratch,
        ProcessPoolExecutor(workers, context, initializer=_hold, initargs=(dict(files), scratch)) as pool,
        ended_with_us(pool),
    ):
        with undisturbed():
            waiting = [_give(pool, sheet) for sheet in wanted]
        found = list[SetPdf | Failed | None]()
        for future in waiting:
            found.append(_outcome(future))
            if progress is not None:
                progress(len(found), len(waiting))
        return found


def _give(pool: ProcessPoolExecutor, sheet: PdfSheet) -> Future[SetPdf | Failed]:
    try:
        return pool.submit(_set_held, sheet)
    except BrokenProcessPool as error:
        refused: Future[SetPdf | Failed] = Future()
        refused.set_exception(error)
        return refused


def _outcome(future: Future[SetPdf | Failed]) -> SetPdf | Failed | None:
    try:
        return future.result()
    except BrokenProcessPool:
        return None


_HELD: dict[str, bytes] = {}
"""The site's files in a worker, handed over once and not with every sheet."""


def _hold(files: Mapping[str, bytes], scratch: str) -> None:
    end_with_parent()
    _HELD.update(files)
    # WeasyPrint drops its unpacked fonts when its objects are collected, which an ending worker never does.
    tempfile.tempdir = scratch


def _set_held(sheet: PdfSheet) -> SetPdf | Failed:
    try:
        return set_sheet(_HELD, sheet)
    except Exception as error:
        return Failed(sheet.path, f"{type(error).__name__}: {error}")
