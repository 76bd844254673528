"""The files of a book as they were at one time, so that a state of the book can be shown when it is gone from the disk."""

from __future__ import annotations

from collections.abc import Mapping

from saponary.reading.files import ReadOnce, Unread

Held = tuple[str, bytes | Unread]
"""The digest of a file, and its bytes."""


class Remembered(ReadOnce):
    """Files that are read once. What `hold` has read is told of later too, whatever has become of the file."""

    def hold(self, digests: Mapping[str, str], before: Mapping[str, Held]) -> dict[str, Held]:
        """Have the bytes of all files that have a digest at hand. Those held `before`, by the same digest, are not read."""
        held: dict[str, Held] = {}
        for name, digest in digests.items():
            was = before.get(name)
            held[name] = was if was is not None and was[0] == digest else (digest, self.read(name))
            self._read[name] = held[name][1]
        return held
