"""PDFs of both books, set in parallel, against a bare WeasyPrint loop over the same HTML.

The loop is one process, one sheet after another, with the same files and fonts. Prints
seconds and the ratio of the parallel run to the loop.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from outputs.pdfs.desk import desk_of
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_make import make, sheets


def main() -> None:
    jobs = [(desk, sheets(desk)) for desk in (desk_of("starters"), desk_of("demo"))]
    count = sum(len(wanted) for _, wanted in jobs)
    set_sheet(jobs[0][0].files, jobs[0][1][0])
    start = time.perf_counter()
    for desk, wanted in jobs:
        for sheet in wanted:
            set_sheet(desk.files, sheet)
    bare = time.perf_counter() - start
    start = time.perf_counter()
    for desk, wanted in jobs:
        _, failed = make(desk.files, wanted)
        assert not failed, failed
    parallel = time.perf_counter() - start
    print(f"{count} PDFs")
    print(f"bare loop {bare:7.2f} s")
    print(f"parallel  {parallel:7.2f} s  {parallel / bare:5.2f} x loop")


if __name__ == "__main__":
    main()
