"""For all tests: what a property test finds depends on no clock, and nobody waits for the disk."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")


@pytest.fixture(autouse=True, scope="session")
def disk_is_not_waited_for() -> Iterator[None]:
    """Nothing here loses power; the tests of what is flushed, and when, look at the calls."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda handle: None)
        yield
