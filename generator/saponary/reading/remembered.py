"""The files of a book as they were at one time, so that a state of the book can be shown when it is gone from the disk."""

from __future__ import annotations

from collections.abc import Mapping

from saponary.reading.files import Files, Unread

Held = tuple[str, bytes | Unread]
"""The digest of a file, and its bytes."""


class Remembered:
    """Files that are read once. What `hold` has read is told of later too, whatever has become of the file."""

    def __init__(self, files: Files) -> None:
        self.root, self._files = files.root, files
        self.has, self.names, self.below = files.has, files.names, files.below
        self._read: dict[str, bytes | Unread] = {}

    def read(self, name: str) -> bytes | Unread:
        if name not in self._read:
            self._read[name] = self._files.read(name)
        return self._read[name]

    def hold(self, digests: Mapping[str, str], before: Mapping[str, Held]) -> dict[str, Held]:
        """Have the bytes of all files that have a digest at hand. Those held `before`, by the same digest, are not read."""
        held: dict[str, Held] = {}
        for name, digest in digests.items():
            was = before.get(name)
            held[name] = was if was is not None and was[0] == digest else (digest, self.read(name))
            self._read[name] = held[name][1]
        return held
