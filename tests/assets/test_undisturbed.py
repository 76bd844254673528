"""Workers end with the process that they work for, whatever ends it and whoever made them."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

_MASTER = """
import os, signal, sys
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from saponary.assets.undisturbed import end_with_parent

if __name__ == "__main__":
    given = (os.getpid(),) if sys.argv[1] == "fork" else ()
    with ProcessPoolExecutor(2, get_context(sys.argv[1]), end_with_parent, given) as pool:
        print(pool.submit(os.getpid).result(), flush=True)
        signal.pause()
"""


@pytest.mark.slow
@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks where Linux tells of processes")
@pytest.mark.parametrize("by", ["fork", "forkserver"])
@pytest.mark.parametrize("how", [signal.SIGTERM, signal.SIGKILL])
def test_workers_end_with_a_process_that_is_ended_by_force(
    tmp_path: Path, by: str, how: signal.Signals
) -> None:
    program = tmp_path / "master.py"
    program.write_text(_MASTER, encoding="utf-8")
    master = subprocess.Popen([sys.executable, str(program), by], stdout=subprocess.PIPE, text=True)
    assert master.stdout is not None
    with master.stdout:
        worker = int(master.stdout.readline())
        assert _lives(worker)
        master.send_signal(how)
        master.wait(timeout=20)
    until = time.monotonic() + 20
    while _lives(worker) and time.monotonic() < until:
        time.sleep(0.02)
    assert not _lives(worker)


def _lives(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"
