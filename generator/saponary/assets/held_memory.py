"""Memory that is let go of stays with this process, for the next picture of the same size.

As a rule the system gets a picture's memory back as soon as it is let go of, and hands out the next one's page by
page, each cleared: for the pictures and drawings of a book that is a third of the time they take. A command that
draws many of them ends soon, so it may keep what it has. Processes that are copied from this one do so too.
"""

from __future__ import annotations

import ctypes
import sys

_TRIM_THRESHOLD, _MMAP_THRESHOLD = -1, -3
"""mallopt(3): how much that is free is kept, and from which size on each piece is the system's own."""
_KEPT, _LARGE = 256_000_000, 32_000_000


def hold_memory() -> None:
    """Keep what is let go of, where the system's library can be told so; elsewhere nothing changes."""
    if not sys.platform.startswith("linux"):
        return
    mallopt = getattr(ctypes.CDLL(None), "mallopt", None)
    if mallopt is not None:
        mallopt(_TRIM_THRESHOLD, _KEPT)
        mallopt(_MMAP_THRESHOLD, _LARGE)
