"""Memory that is let go of stays with the process: it is not asked of the system again."""

from __future__ import annotations

import subprocess
import sys

import pytest

from support import REPOSITORY

FAULTS = """
import ctypes, resource, sys
from PIL import Image
from saponary.assets.held_memory import hold_memory
if not hasattr(ctypes.CDLL(None), "mallopt"):
    raise SystemExit("none")
if sys.argv[1] == "held":
    hold_memory()
for turn in range(3):
    before = resource.getrusage(resource.RUSAGE_SELF).ru_minflt
    for _ in range(10):
        one = Image.new("RGB", (1120, 900), "white")
        several = [one.copy() for _ in range(4)]
        del one, several
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt - before)
"""


@pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="the system's library is asked on Linux alone"
)
def test_the_system_is_not_asked_again() -> None:
    """Source: mallopt(3). A page of memory that is handed out anew is a fault, counted by getrusage(2)."""
    told: dict[str, str] = {}
    for how in ("held", "let go"):
        done = subprocess.run(
            [sys.executable, "-c", FAULTS, how],
            env={"PYTHONPATH": str(REPOSITORY / "generator")},
            capture_output=True,
            text=True,
            check=False,
        )
        if "none" in done.stderr:
            pytest.skip("this library has no mallopt")
        told[how] = done.stdout
    assert int(told["held"]) * 10 < int(told["let go"])
