"""For all tests: no finding depends on a clock, nobody waits for the disk, nothing is compiled twice,
and what stays to the end is not looked through for what may go.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

if (
    sys.dont_write_bytecode
):  # whoever wants none in the tree has it aside: each process would compile all anew
    aside = str(Path(__file__).resolve().parents[1] / ".pytest_cache" / "bytecode")
    sys.dont_write_bytecode, sys.pycache_prefix = False, aside
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = aside


@pytest.fixture(autouse=True, scope="session")
def the_users_own_cache_is_left_alone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(autouse=True, scope="session")
def disk_is_not_waited_for() -> Iterator[None]:
    """Nothing here loses power; the tests of what is flushed, and when, look at the calls."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda handle: None)
        yield


def pytest_collection_finish() -> None:
    """Thousands of tests and hundreds of modules stay to the end; that all were looked through took a tenth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)
