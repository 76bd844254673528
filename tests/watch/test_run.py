"""The command as it is run: it begins, follows a save, and stops from the keyboard."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

from support import PLAIN, write_book

pytestmark = pytest.mark.slow


def line_with(process: subprocess.Popen[str], words: str) -> str:
    assert process.stdout is not None
    for line in process.stdout:
        if words in line:
            return line
    raise AssertionError(f"it ended without saying {words!r}")


def test_it_follows_a_save_and_ends_on_ctrl_c(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/plain.md": PLAIN})
    command = [sys.executable, "-m", "saponary", "watch", str(root), "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env={**os.environ})
    address = re.search(r"http://localhost:\d+/", line_with(process, "until you press"))
    assert address is not None

    def shown() -> str:
        with urllib.request.urlopen(f"{address[0]}recipes/plain/", timeout=10) as page:
            return str(page.read().decode())

    assert "Plain Bar" in shown()
    (root / "recipes" / "plain.md").write_text(PLAIN.replace("Plain Bar", "Plainer Bar"))
    until = time.monotonic() + 20
    while "Plainer Bar" not in shown() and time.monotonic() < until:
        time.sleep(0.02)
    assert "Plainer Bar" in shown()
    process.send_signal(signal.SIGINT)
    rest, _ = process.communicate(timeout=20)
    assert process.returncode == 0
    assert "stopped; nothing of the book was written" in rest
    assert not (root / "site").exists()


def test_a_port_that_is_taken_is_said(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/plain.md": PLAIN})
    command = [sys.executable, "-m", "saponary", "watch", str(root), "--port"]
    with subprocess.Popen([*command, "0"], stdout=subprocess.PIPE, text=True) as first:
        address = line_with(first, "until you press")
        port = re.findall(r":(\d+)/", address)[0]
        second = subprocess.run([*command, port], capture_output=True, text=True, timeout=60)
        assert second.returncode == 2
        assert f"port {port} is taken" in second.stderr
        first.send_signal(signal.SIGINT)
