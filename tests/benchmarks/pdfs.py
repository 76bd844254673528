"""PDFs of both books, set in parallel, against a bare WeasyPrint loop over the same HTML; and whole books.

Without arguments: the loop is one process, one sheet after another, with the same files and fonts. Prints
seconds by the clock and of the processor, and the ratio of the parallel run to the loop, by the clock.

`pdfs.py 50 200` sets seeded books of so many recipes, on one paper: from an empty store, with a recipe changed,
bound anew of parts that are all kept, and recalled. Prints seconds by the clock, of the processor, and the most
memory that all processes together held.
"""

from __future__ import annotations

import os
import sys
import tempfile
import threading
import time
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from benchmarks.seeded import write_book
from outputs.pdfs.desk import desk_at, desk_of, sheets_of
from saponary.assets.store import DiskStore
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_kind import PdfBook, PdfSheet
from saponary.outputs.pdf_make import make, sheets

EVERY = 0.5
"""Seconds between two looks at the processes."""


def main() -> None:
    if len(sys.argv) > 1:
        print(f"{'recipes':>8} {'':<26} {'s':>8} {'CPU s':>8} {'MB':>6}")
        for count in sys.argv[1:]:
            whole_book(int(count))
        return
    against_a_loop()


def against_a_loop() -> None:
    jobs = [
        (dict(desk.files), [sheet for sheet in sheets(desk) if isinstance(sheet, PdfSheet)])
        for desk in (desk_of("starters"), desk_of("demo"))
    ]
    count = sum(len(wanted) for _, wanted in jobs)
    set_sheet(jobs[0][0], jobs[0][1][0])
    with Measured() as bare:
        for files, wanted in jobs:
            for sheet in wanted:
                set_sheet(files, sheet)
    with Measured() as parallel:
        for files, wanted in jobs:
            _, failed = make(files, wanted)
            assert not failed, failed
    print(f"{count} PDFs         s    CPU s")
    print(f"bare loop {bare.wall:7.2f}  {bare.cpu:7.2f}")
    print(f"parallel  {parallel.wall:7.2f}  {parallel.cpu:7.2f}  {parallel.wall / bare.wall:5.2f} x loop")


def whole_book(count: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_at(write_book(Path(folder) / "book", count))
        book = next(iter(sheets_of(desk, "whole-book").values()))
        assert isinstance(book, PdfBook)
        files = {path: desk.files[path] for path in desk.files if path.endswith(".svg")}
        store = Path(folder) / "store"
        again = book.parts[count // 2]
        changed = replace(again, html=again.html.replace("The pour", "How it was poured"))
        assert changed != again
        other = replace(book, parts=tuple(changed if part == again else part for part in book.parts))
        measured(f"{count:>8} from an empty store", files, book, store)
        measured(f"{count:>8} a recipe changed", files, other, store)
        for kept in (store / "book").iterdir():
            kept.unlink()
        measured(f"{count:>8} nothing to set", files, book, store)
        measured(f"{count:>8} recalled", files, book, store)


def measured(what: str, files: Mapping[str, bytes], book: PdfBook, store: Path) -> None:
    with Measured() as run:
        _, failed = make(files, [book], store=DiskStore(store))
        assert not failed, failed
    print(f"{what:<35} {run.wall:8.1f} {run.cpu:8.1f} {run.most / 1e6:6.0f}", flush=True)


class Measured:
    """Seconds by the clock and of all processors, and the most memory, of this process and its children together.

    Those of children are as of the last look at each, so that up to half a second of each is lost.
    """

    wall = cpu = 0.0
    most = 0

    def __enter__(self) -> Measured:
        self._over = threading.Event()
        self._of: dict[int, float] = {}
        self._looking = threading.Thread(target=self._look)
        self._looking.start()
        self.wall, self.cpu = -time.perf_counter(), -time.process_time()
        return self

    def __exit__(self, *error: object) -> None:
        self.wall += time.perf_counter()
        self._over.set()
        self._looking.join()
        self.cpu += time.process_time() + sum(self._of.values())

    def _look(self) -> None:
        while not self._over.wait(EVERY):
            children = _with_children(os.getpid())
            self.most = max(self.most, sum(map(_held, children)))
            self._of |= {one: took for one in children[1:] if (took := _took(one)) is not None}


def _took(process: int) -> float | None:
    """Seconds of the processor that a process has taken; None where it has ended."""
    with suppress(OSError):
        told = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
        return (int(told[11]) + int(told[12])) / os.sysconf("SC_CLK_TCK")
    return None


def _with_children(process: int) -> list[int]:
    """A process and all that it has started, the first one first."""
    found, waiting = list[int](), [process]
    while waiting:
        one = waiting.pop()
        found.append(one)
        for task in Path(f"/proc/{one}/task").glob("*/children"):
            with suppress(OSError):
                waiting.extend(map(int, task.read_text().split()))
    return found


def _held(process: int) -> int:
    """Bytes of memory, those that are shared divided among those who share them."""
    with suppress(OSError):
        for line in Path(f"/proc/{process}/smaps_rollup").read_text().splitlines():
            if line.startswith("Pss:"):
                return 1024 * int(line.split()[1])
    return 0


if __name__ == "__main__":
    main()
