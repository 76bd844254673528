"""Sets the sheets of an edition, several at a time, each in a process of its own kind."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from multiprocessing import get_all_start_methods, get_context

from saponary.outputs.pdf_engine import ready, set_sheet
from saponary.outputs.pdf_kind import PdfContext, PdfSheet
from saponary.outputs.pdfs import KINDS


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
    files: Mapping[str, bytes], wanted: Sequence[PdfSheet], progress: Progress | None = None
) -> tuple[dict[str, bytes], list[Failed]]:
    """PDFs by path, and those that failed. Raises PressMissing where none can be made."""
    ready()
    workers = max(1, min(len(wanted), os.cpu_count() or 1))
    outcomes = _set(files, wanted, workers, progress)
    # A worker that is ended takes those beside it along: each of them is tried once more, by itself.
    outcomes = [
        _set(files, [sheet], 1)[0] if outcome is None else outcome
        for sheet, outcome in zip(wanted, outcomes, strict=True)
    ]
    lost = "the process setting it was ended from outside; was there memory enough?"
    made = {sheet.path: out for sheet, out in zip(wanted, outcomes, strict=True) if isinstance(out, bytes)}
    failed = [
        out if isinstance(out, Failed) else Failed(sheet.path, lost)
        for sheet, out in zip(wanted, outcomes, strict=True)
        if not isinstance(out, bytes)
    ]
    return made, failed


def _set(
    files: Mapping[str, bytes], wanted: Sequence[PdfSheet], workers: int, progress: Progress | None = None
) -> list[bytes | Failed | None]:
    """An outcome for each sheet; None where its worker was ended."""
    methods = get_all_start_methods()
    context = get_context("forkserver" if "forkserver" in methods else "spawn")
    with (
        tempfile.TemporaryDirectory(prefix="saponary-", ignore_cleanup_errors=True) as scratch,
        ProcessPoolExecutor(workers, context, initializer=_hold, initargs=(files, scratch)) as pool,
    ):
        waiting = [_give(pool, sheet) for sheet in wanted]
        found = list[bytes | Failed | None]()
        for future in waiting:
            found.append(_outcome(future))
            if progress is not None:
                progress(len(found), len(waiting))
        return found


def _give(pool: ProcessPoolExecutor, sheet: PdfSheet) -> Future[bytes | Failed]:
    try:
        return pool.submit(_set_held, sheet)
    except BrokenProcessPool as error:
        refused: Future[bytes | Failed] = Future()
        refused.set_exception(error)
        return refused


def _outcome(future: Future[bytes | Failed]) -> bytes | Failed | None:
    try:
        return future.result()
    except BrokenProcessPool:
        return None


_HELD: dict[str, bytes] = {}
"""The site's files in a worker, handed over once and not with every sheet."""


def _hold(files: Mapping[str, bytes], scratch: str) -> None:
    _HELD.update(files)
    # WeasyPrint drops its unpacked fonts when its objects are collected, which an ending worker never does.
    tempfile.tempdir = scratch


def _set_held(sheet: PdfSheet) -> bytes | Failed:
    try:
        return set_sheet(_HELD, sheet)
    except Exception as error:
        return Failed(sheet.path, f"{type(error).__name__}: {error}")
