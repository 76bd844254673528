"""Digests of a recipe's own files, by which it is told to be as it was; those known by their stamps are not read."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.reading.files import ReadOnce, Unread


def own_files(slug: str) -> tuple[str, str]:
    """The files that a recipe may have: its own, and that of its batches."""
    return f"recipes/{slug}.md", f"batches/{slug}.yaml"


def digests_of(files: ReadOnce, slugs: Sequence[str]) -> tuple[dict[str, str], dict[str, str]]:
    """By recipe, the digests of its file and of that of its batches; and that of each of these files."""
    listed, own, digests = files.names("batches"), dict[str, str](), dict[str, str]()
    of_batches = frozenset[str]() if isinstance(listed, Unread) else frozenset(listed)
    known = {**files.digests("recipes"), **files.digests("batches")}
    for slug in slugs:
        file, of_its_batches = own_files(slug)
        own[slug] = digests[file] = known.get(file) or files.digest(file)
        if f"{slug}.yaml" in of_batches:
            digests[of_its_batches] = known.get(of_its_batches) or files.digest(of_its_batches)
            own[slug] = f"{own[slug]} {digests[of_its_batches]}"
    return own, digests
