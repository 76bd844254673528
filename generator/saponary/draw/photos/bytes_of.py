"""The bytes of a photo, as far as they may be read at all."""

from __future__ import annotations

import stat
from pathlib import Path

from saponary.draw.photos.facts import MAX_BYTES, PhotoFault
from saponary.quantity.rounding import show


def read_bytes(path: Path) -> bytes | PhotoFault:
    """The whole file; only a plain file of a bearable size is read."""
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            # A pipe would keep the build waiting for ever.
            return PhotoFault("this is no plain file", "a photo is one file in photos/")
        if about.st_size > MAX_BYTES:
            return PhotoFault(
                f"this file has {show(about.st_size / 1e6, 0)} MB",
                f"save the photo smaller, below {show(MAX_BYTES / 1e6, 0)} MB",
            )
        with path.open("rb") as file:
            return file.read(MAX_BYTES)
    except FileNotFoundError:
        return PhotoFault("there is no such file", "look at the spelling, capitals included")
    except (OSError, ValueError):
        return PhotoFault("this file cannot be read", "look at who may read it, and at the disk")
