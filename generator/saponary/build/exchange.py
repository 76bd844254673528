"""One folder put in the place of another in one step, and what is left of the other cleared away.

The new folder is made aside, and shares with the old one every file that stays, so that it is whole
before the exchange. What the program did not write is never deleted: what is left over of it is moved
to where it belongs.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Collection, Iterable
from contextlib import suppress
from pathlib import Path

from saponary.assets.disk import exchange, flush


def swap(new: Path, site: Path, old: Path) -> Path:
    """Put a new folder in the place of one that may be there; where the former one is now."""
    if not os.path.lexists(site):
        new.rename(site)
        left = new
    elif exchange(new, site):
        left = new
    else:
        site.rename(old)
        new.rename(site)
        left = old
    flush(site.parent)
    return left


def put_back(old: Path, site: Path) -> None:
    """Where a kill came between the two steps of systems that cannot exchange: the site, back in its place."""
    if not os.path.lexists(site) and old.is_dir():
        old.rename(site)


def clear(left: Path, site: Path, own: Collection[str]) -> None:
    """Clear a folder away that stood aside. All but the program's `own` goes back into the site, if it is not there."""
    if not left.is_dir() or left.is_symlink():
        return
    for home, folders, names in os.walk(left, topdown=False):
        here = Path(home)
        for name in (*names, *(each for each in folders if (here / each).is_symlink())):
            path = here / name
            relative = path.relative_to(left)
            if relative.as_posix() in own:
                path.unlink()
            else:
                _give_back(path, site / relative)
        with suppress(OSError):  # something came into it meanwhile: the next build looks again
            here.rmdir()


def _give_back(path: Path, place: Path) -> None:
    """What is somebody else's to its place, unless it is there, or something newer is."""
    try:
        there = place.lstat()
    except FileNotFoundError:
        place.parent.mkdir(parents=True, exist_ok=True)
        path.rename(place)
        return
    except NotADirectoryError:  # no place is left for it there
        return
    mine = path.lstat()
    if os.path.samestat(mine, there) or mine.st_mtime_ns <= there.st_mtime_ns:
        path.unlink()
    else:
        path.replace(place)


def share(old: Path, new: Path, paths: Iterable[str], own: Collection[str]) -> None:
    """Have a new folder hold the very files and empty folders of the old one.

    What cannot be shared is copied, if it is the program's own, and else left to be moved after the exchange.
    """
    for path in paths:
        source, target = old / path, new / path
        target.parent.mkdir(parents=True, exist_ok=True)
        if source.is_dir() and not source.is_symlink():
            target.mkdir(exist_ok=True)
            continue
        try:
            os.link(source, target, follow_symlinks=False)
        except OSError:
            if path in own:
                shutil.copy2(source, target)


def as_before(old: Path, new: Path) -> None:
    """Rights and owners of folders that were there before, on their likes in the new folder."""
    for home, _, _ in os.walk(new):
        was = old / Path(home).relative_to(new)
        if was.is_dir() and not was.is_symlink():
            shutil.copymode(was, home)
            with suppress(OSError, AttributeError):
                found = was.stat()
                os.chown(home, found.st_uid, found.st_gid)
