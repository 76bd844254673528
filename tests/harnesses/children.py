"""Commands run in copies of this process, which begin at once: to overlap, to be killed, to run out of room."""

from __future__ import annotations

import importlib
import os
import pkgutil
import resource
import signal
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

import saponary
from saponary.cli.main import main
from saponary.reading.findings import errors
from support import PLAIN, prove_one


@dataclass
class Child:
    """A command that runs; `said` is what it printed once it has ended."""

    pid: int
    output: int
    """The end of a pipe that what it prints comes out of: no limit of files holds for it."""
    words: Sequence[str] = ()
    status: int | None = None
    said: str = ""

    def ended(self) -> int:
        """Wait for its end; its exit status, below zero for a signal."""
        if self.status is None:
            with os.fdopen(self.output, "rb") as pipe:
                self.said = pipe.read().decode("utf-8", errors="replace")
            _, found = os.waitpid(self.pid, 0)
            self.status = -os.WTERMSIG(found) if os.WIFSIGNALED(found) else os.WEXITSTATUS(found)
        return self.status

    def kill_after(self, seconds: float) -> None:
        time.sleep(seconds)
        os.kill(self.pid, signal.SIGKILL)
        self.ended()


@cache
def warm() -> None:
    """Have all modules and tables read once, so that each copy of this process begins with them."""
    for found in pkgutil.walk_packages(saponary.__path__, "saponary."):
        if not found.name.endswith("__main__"):
            importlib.import_module(found.name)
    assert not errors(prove_one(PLAIN).findings)


def begin(words: Sequence[str], *, limit: int | None = None) -> Child:
    """Run a command; `limit` is the most bytes that it may write into one file."""
    child = begin_call(lambda: main(list(words)), limit=limit)
    child.words = words
    return child


def begin_call(call: Callable[[], int], *, limit: int | None = None) -> Child:
    output, handle = os.pipe()
    pid = os.fork()
    if pid == 0:
        status = 99
        try:
            os.close(output)
            os.dup2(handle, 1)
            os.dup2(handle, 2)
            sys.stdout, sys.stderr = (os.fdopen(number, "w", closefd=False) for number in (1, 2))
            if limit is not None:
                resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
            status = call()
        except BaseException:
            import traceback

            traceback.print_exc()
        finally:
            sys.stdout.flush()
            os._exit(status)
    os.close(handle)
    return Child(pid, output)


def run(words: Sequence[str], *, limit: int | None = None) -> Child:
    """The same, to its end."""
    child = begin(words, limit=limit)
    child.ended()
    return child
