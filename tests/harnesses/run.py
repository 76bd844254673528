"""All harnesses, whole, by one command, with a table: `python tests/harnesses/run.py [--seed N] [--part 0.1] [NAME …]`."""

from __future__ import annotations

import argparse
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from harnesses import fuzz, kills, links, markers, merges, noise, pairs, sheets, spellings, stopped, writers

HARNESSES = (
    *writers.HARNESSES,
    *pairs.HARNESSES,
    *kills.HARNESSES,
    *stopped.HARNESSES,
    *spellings.HARNESSES,
    *noise.HARNESSES,
    *links.HARNESSES,
    *markers.HARNESSES,
    *fuzz.HARNESSES,
    *merges.HARNESSES,
    *sheets.HARNESSES,
)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("names", nargs="*", help="words of a harness's name (default: all)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--part", type=float, default=1.0, help="the part of all tries")
    given = parser.parse_args()
    commit = subprocess.run(
        ["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True
    ).stdout.strip()
    print(
        f"commit {commit}, {time.strftime('%Y-%m-%d')}, seed {given.seed}\n\n| harness | tries | wrong | seconds |\n|---|---|---|---|"
    )
    wrong = 0
    for one in HARNESSES:
        if given.names and not any(word in one.name for word in given.names):
            continue
        began = time.monotonic()
        with tempfile.TemporaryDirectory(prefix="harness-") as folder:
            score = one.run(Path(folder), random.Random(given.seed), max(1, round(one.whole * given.part)))
        print(f"| {one.name} | {score.tries} | {score.wrong} | {time.monotonic() - began:.0f} |", flush=True)
        for fault in score.faults:
            print(f"    {fault}", file=sys.stderr, flush=True)
        wrong += score.wrong
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
