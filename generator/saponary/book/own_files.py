"""Digests of a recipe's own files, by which it is told to be as it was; those known by their stamps are not read."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from saponary.reading.files import ReadOnce, Unread


def digests_of(files: ReadOnce, slugs: Sequence[str]) -> tuple[dict[str, str], dict[str, str]]:
    """By recipe, a digest of its file and of that of its batches; and that of each of these files."""
    listed, own, digests = files.names("batches"), dict[str, str](), dict[str, str]()
    of_batches = frozenset[str]() if isinstance(listed, Unread) else frozenset(listed)
    for slug in slugs:
        named = [f"recipes/{slug}.md"]
        if f"{slug}.yaml" in of_batches:
            named.append(f"batches/{slug}.yaml")
        digests |= {name: files.digest(name) for name in named}
        own[slug] = hashlib.sha256(
            "\n".join(f"{digests[name]} {name}" for name in named).encode()
        ).hexdigest()
    return own, digests
