"""Harness of Ctrl-C: at any time one line and the status 130, nothing half, and the next run clean."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

from harnesses.children import run
from harnesses.harness import Harness, Score, fault_of_site, parts_left, small_book
from saponary.cli.start import STOPPED
from support import PLAIN, REPOSITORY


def stopped(folder: Path, chance: random.Random, tries: int) -> Score:
    """Builds, records and signs stopped from the keyboard, from the moment that they are this program."""
    score, root = Score(), small_book(folder / "book")
    for turn in range(tries):
        (root / "recipes/b.md").write_text(PLAIN.replace("Plain", f"Other {turn}"))
        words = chance.choice(
            [
                ["build", str(root), "--edition", "all"],
                ["record", "a", "--book", str(root)],
                ["proof", str(root)],
            ]
        )
        child = subprocess.Popen(
            [sys.executable, "-c", _START, *words],
            env={**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        assert child.stdout is not None and child.stdout.readline() == "go\n"
        time.sleep(chance.choice([0.0, 0.02, chance.random() * 0.3, chance.random() * 2.0]))
        child.send_signal(signal.SIGINT)
        _, err = child.communicate()
        fault = fault_of_site(root)
        if child.returncode == 130 and (err.count(STOPPED) != 1 or len(err.strip().splitlines()) > 2):
            fault = f"says {err[-400:]!r}"
        elif child.returncode not in (0, 130) or "Traceback" in err:
            fault = f"{child.returncode}: {err[-400:]!r}"
        score.count(f"{turn} {words[0]}: {fault}" if fault else None)
    child_ = run(["build", str(root), "--edition", "all"])
    score.count(fault_of_site(root) or parts_left(root) or (child_.said if child_.status else None))
    return score


_START = """
import sys
from saponary.cli.start import start, _end
import signal
signal.signal(signal.SIGINT, _end)
print("go", flush=True)
start()
"""

HARNESSES = (Harness("stopped from the keyboard", stopped, 120, 4),)
