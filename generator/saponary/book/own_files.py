"""Digests of a recipe's own files, by which it is told to be as it was; those known by their stamps are not read."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.reading.files import ReadOnce, Unread


def digests_of(files: ReadOnce, slugs: Sequence[str]) -> tuple[dict[str, str], dict[str, str]]:
    """By recipe, the digests of its file and of that of its batches; and that of each of these files."""
    listed, own, digests = files.names("batches"), dict[str, str](), dict[str, str]()
    of_batches = frozenset[str]() if isinstance(listed, Unread) else frozenset(listed)
    known = {**files.digests("recipes"), **files.digests("batches")}
    for slug in slugs:
        file, batches = f"recipes/{slug}.md", f"{slug}.yaml"
        own[slug] = digests[file] = known.get(file) or files.digest(file)
        if batches in of_batches:
            file = f"batches/{batches}"
            digests[file] = known.get(file) or files.digest(file)
            own[slug] = f"{own[slug]} {digests[file]}"
    return own, digests
