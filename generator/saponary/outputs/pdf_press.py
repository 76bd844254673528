"""Sets sheets and parts of books and binds books, several at a time, each in a process of its own kind."""

from __future__ import annotations

import gc
import os
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import ExitStack
from multiprocessing import get_all_start_methods, get_context
from types import TracebackType
from typing import NamedTuple

from saponary.assets.undisturbed import end_with_parent, ended_with_us, undisturbed
from saponary.outputs.grafted.bench import bind, set_part
from saponary.outputs.grafted.making import BindJob, PartJob
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_kind import PdfSheet, SetPdf
from saponary.reading.findings import Finding, Place

Job = PdfSheet | PartJob | BindJob

_AT_ONCE = 48
"""Jobs for a worker before another takes its place: one grows by a third of a megabyte with every document."""
_SELDOM = 50_000
"""Objects made in a worker before it is looked for those that may go."""
_LOADED = ["saponary.outputs.pdf_press", "weasyprint"]
"""What the process that workers are copied from has imported."""
_LOST = "the process setting it was ended from outside; was there memory enough?"


class Failed(NamedTuple):
    """What could not be set, and why."""

    path: str
    why: str

    def fault(self, folder: str = "") -> Finding:
        """The same as a finding; `folder` is where its path begins."""
        return Finding("press", "error", Place(folder + self.path), "this PDF cannot be set", self.why)


class Press:
    """A number of workers, started when there is something to do. They hold the files of one site."""

    def __init__(self, files: Mapping[str, bytes], workers: int | None = None) -> None:
        self._files, self._workers = files, workers or os.cpu_count() or 1
        self._running = ExitStack()
        self._pool: ProcessPoolExecutor | None = None
        self._given = 0

    def __enter__(self) -> Press:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._running.__exit__(kind, error, trace)

    def each(self, jobs: Sequence[Job]) -> Iterator[tuple[int, SetPdf | Failed]]:
        """What came of each job, with its place among them, as they are done."""
        many = _AT_ONCE * self._workers
        for start in range(0, len(jobs), many):
            lost: list[int] = []
            for at, outcome in enumerate(self._set(jobs[start : start + many]), start):
                if outcome is None:
                    lost.append(at)
                else:
                    yield at, outcome
            # A worker that is ended takes those beside it along: each of them is tried once more, by itself.
            for at in lost:
                self._rest()
                with Press(self._files, 1) as alone:
                    (outcome,) = alone._set([jobs[at]])
                yield at, outcome or Failed(_name(jobs[at]), _LOST)

    def _set(self, jobs: Sequence[Job]) -> Iterator[SetPdf | Failed | None]:
        """An outcome for each job; None where its worker was ended."""
        if self._given + len(jobs) > _AT_ONCE * self._workers:
            self._rest()
        pool = self._pool or self._start()
        self._given += len(jobs)
        with undisturbed():
            waiting = [_give(pool, job) for job in jobs]
        for future in waiting:
            yield _outcome(future)

    def _start(self) -> ProcessPoolExecutor:
        methods = get_all_start_methods()
        context = get_context("forkserver" if "forkserver" in methods else "spawn")
        context.set_forkserver_preload(_LOADED)
        scratch = self._running.enter_context(
            tempfile.TemporaryDirectory(prefix="saponary-", ignore_cleanup_errors=True)
        )
        held = (dict(self._files), scratch)
        pool = ProcessPoolExecutor(self._workers, context, initializer=_hold, initargs=held)
        self._pool = self._running.enter_context(pool)
        self._running.enter_context(ended_with_us(pool))
        return pool

    def _rest(self) -> None:
        self._running.close()
        self._pool, self._given = None, 0


def _give(pool: ProcessPoolExecutor, job: Job) -> Future[SetPdf | Failed]:
    try:
        return pool.submit(_set_held, job)
    except BrokenProcessPool as error:
        refused: Future[SetPdf | Failed] = Future()
        refused.set_exception(error)
        return refused


def _outcome(future: Future[SetPdf | Failed]) -> SetPdf | Failed | None:
    try:
        return future.result()
    except BrokenProcessPool:
        return None


def _name(job: Job) -> str:
    return job.name if isinstance(job, PartJob) else job.path


_HELD: dict[str, bytes] = {}
"""The site's files in a worker, handed over once and not with every sheet."""


def _hold(files: Mapping[str, bytes], scratch: str) -> None:
    end_with_parent()
    # What is there now stays, and a sheet comes and goes as a whole: it is seldom looked for what may go.
    gc.freeze()
    gc.set_threshold(_SELDOM)
    _HELD.update(files)
    # WeasyPrint drops its unpacked fonts when its objects are collected, which an ending worker never does.
    tempfile.tempdir = scratch


def _set_held(job: Job) -> SetPdf | Failed:
    try:
        match job:
            case PartJob():
                return set_part(_HELD, job)
            case BindJob():
                return bind(_HELD, job)
            case _:
                return set_sheet(_HELD, job)
    except Exception as error:
        return Failed(_name(job), f"{type(error).__name__}: {error}")
