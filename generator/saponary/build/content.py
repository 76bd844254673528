"""What a file of a site is to hold: told by its digest, and read when its bytes are needed.

A file that lies in place already is known by its digest alone, and costs no reading.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import NamedTuple


class Content(NamedTuple):
    """A file's bytes: their SHA-256, and whence they come."""

    digest: str
    read: Callable[[], bytes]


def content(data: bytes) -> Content:
    """Bytes that are at hand."""
    return Content(hashlib.sha256(data).hexdigest(), partial(_same, data))


def _same(data: bytes) -> bytes:
    return data


class Bytes(Mapping[str, bytes]):
    """The bytes of files, each read when it is asked for."""

    def __init__(self, files: Mapping[str, Content]) -> None:
        self._files = files

    def __getitem__(self, path: str) -> bytes:
        return self._files[path].read()

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)
