"""All photos of a book at once: in parallel, in a settled order, and none made twice."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import TypeVar

from saponary.assets.store import Key, NoStore, Store
from saponary.draw.photos.bytes_of import read_bytes
from saponary.draw.photos.facts import WIDTHS, PhotoFault, Variant
from saponary.draw.photos.kept import key_of, packed, unpacked

T = TypeVar("T")

Made = list[Variant] | PhotoFault

# Decoding and encoding leave Python's lock, so threads do; few, for each holds a whole photo in memory.
_WORKERS = 4


def make_all(
    photos: Mapping[str, Path],
    store: Store | None = None,
    widths: Sequence[int] = WIDTHS,
    done: Callable[[str], None] | None = None,
) -> dict[str, Made]:
    """What is published of each photo, by the names given and in their order.

    Those that `store` keeps are not made again. `done` is told each name, in that order, as its photo is finished.
    """
    return make_each(photos, store or NoStore(), lambda key, made: made, widths, done)


def make_each(
    photos: Mapping[str, Path],
    store: Store,
    of: Callable[[Key | None, Made], T],
    widths: Sequence[int] = WIDTHS,
    done: Callable[[str], None] | None = None,
) -> dict[str, T]:
    """What `of` makes of what is published of each photo, and of the key that it is kept under: so not all are held."""

    def one(path: Path) -> T:
        return of(*_make(path, store, widths))

    made: dict[str, T] = {}
    with ThreadPoolExecutor(min(_WORKERS, os.cpu_count() or 1)) as workers:
        waiting = {name: workers.submit(one, path) for name, path in photos.items()}
        for name, future in waiting.items():
            made[name] = future.result()
            if done is not None:
                done(name)
    return made


def _make(path: Path, store: Store, widths: Sequence[int]) -> tuple[Key | None, Made]:
    data = read_bytes(path)
    if isinstance(data, PhotoFault):
        return None, data
    key = key_of(data, widths)
    recalled = store.recall(key)
    kept = unpacked(recalled) if recalled is not None else None
    if kept is not None:
        return key, kept
    # The library of pictures is imported where one has to be made.
    from saponary.draw.photos.publish import variants_of

    made = variants_of(data, widths)
    if not isinstance(made, PhotoFault):
        store.keep(key, packed(made))
    return key, made
