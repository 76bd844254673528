"""Sets the sheets of an edition, several at a time, each in a process of its own kind."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_all_start_methods, get_context

from saponary.press.engine import ready, set_sheet
from saponary.press.kind import PressDesk, Sheet
from saponary.press.kinds import kinds


@dataclass(frozen=True)
class Failed:
    """A sheet that could not be set, and why."""

    path: str
    why: str


def sheets(desk: PressDesk, only: Sequence[str] = ()) -> list[Sheet]:
    """Every sheet of an edition, composed; `only` names the kinds wanted (all where empty)."""
    return [
        sheet
        for kind in kinds()
        if (not only or kind.name in only) and (kind.needs is None or desk.site.shows(kind.needs))
        for sheet in kind.render(desk)
    ]


def make(files: Mapping[str, bytes], wanted: Sequence[Sheet]) -> tuple[dict[str, bytes], list[Failed]]:
    """PDFs by path, and those that failed. Raises PressMissing where none can be made."""
    ready()
    workers = min(len(wanted), os.cpu_count() or 1)
    if workers < 2:
        outcomes = [_try(files, sheet) for sheet in wanted]
    else:
        methods = get_all_start_methods()
        context = get_context("forkserver" if "forkserver" in methods else "spawn")
        with ProcessPoolExecutor(workers, context, initializer=_hold, initargs=(files,)) as pool:
            outcomes = list(pool.map(_try_held, wanted))
    made = {sheet.path: out for sheet, out in zip(wanted, outcomes, strict=True) if isinstance(out, bytes)}
    return made, [out for out in outcomes if isinstance(out, Failed)]


_HELD: dict[str, bytes] = {}
"""The site's files in a worker, handed over once and not with every sheet."""


def _hold(files: Mapping[str, bytes]) -> None:
    _HELD.update(files)


def _try_held(sheet: Sheet) -> bytes | Failed:
    return _try(_HELD, sheet)


def _try(files: Mapping[str, bytes], sheet: Sheet) -> bytes | Failed:
    try:
        return set_sheet(files, sheet)
    except Exception as error:
        return Failed(sheet.path, f"{type(error).__name__}: {error}")
