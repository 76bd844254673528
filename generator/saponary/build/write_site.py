"""Puts a whole site in place at once: written beside the old one, swapped in by rename.

A file whose bytes have not changed is the same file in both, so that it keeps its date, and what
copies a site to a server leaves it alone. Killed at any instant, the folder is the last good site or the new one. Where the system
can exchange two folders in one step (Linux) it does; elsewhere the old one is moved aside
first, and a site left aside by a kill is put back at the next build.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import stat
import sys
from collections.abc import Iterable
from pathlib import Path, PurePosixPath

_NEW, _OLD = ".site-new", ".site-old"
_AT_FDCWD, _RENAME_EXCHANGE = -100, 2


def write_site(site: Path, files: Iterable[tuple[str, bytes]]) -> int:
    """Write every file of a site (path relative to it, bytes). Returns how many.

    A file whose bytes are the old site's stays that very file; where all are, nothing is touched.
    Hidden files at the top of the old site (such as .gitignore, .nojekyll) are kept.
    """
    new, old = site.parent / _NEW, site.parent / _OLD
    recover(site)
    shutil.rmtree(new, ignore_errors=True)
    count = fresh = 0
    try:
        new.mkdir(parents=True)
        for name, data in files:
            parts = PurePosixPath(name)
            if parts.is_absolute() or ".." in parts.parts or not parts.parts:
                raise ValueError(f"{name!r} would be written outside the site")
            target = new / parts
            target.parent.mkdir(parents=True, exist_ok=True)
            target.unlink(missing_ok=True)  # never write into what the old site shares
            if not _taken_over(site / parts, target, data):
                target.write_bytes(data)
                fresh += 1
            count += 1
        _keep_hidden(site, new)
        if fresh == 0 and _names(site) == _names(new):
            shutil.rmtree(new, ignore_errors=True)
        else:
            _swap(new, site, old)
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise
    return count


def _taken_over(old: Path, target: Path, data: bytes) -> bool:
    """Put the old site's file in place as it is, where it is a file of these bytes."""
    try:
        found = old.lstat()
        if not stat.S_ISREG(found.st_mode) or found.st_size != len(data) or old.read_bytes() != data:
            return False
    except OSError:
        return False
    try:
        os.link(old, target)
    except OSError:  # a file system without links
        target.write_bytes(data)
        os.utime(target, ns=(found.st_atime_ns, found.st_mtime_ns))
    return True


def _keep_hidden(site: Path, new: Path) -> None:
    if site.is_dir():
        for kept in sorted(site.iterdir()):
            if kept.name.startswith(".") and kept.is_file() and not (new / kept.name).exists():
                shutil.copy2(kept, new / kept.name)


def _names(folder: Path) -> set[str]:
    """Everything that stands in a folder and in its folders."""
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*")}


def recover(site: Path) -> None:
    """Put back a site that a kill left moved aside, and clear away what is left over."""
    old = site.parent / _OLD
    if not site.exists() and old.is_dir():
        old.rename(site)
    shutil.rmtree(old, ignore_errors=True)
    shutil.rmtree(site.parent / _NEW, ignore_errors=True)


def _swap(new: Path, site: Path, old: Path) -> None:
    if not os.path.lexists(site):
        new.rename(site)
        return
    if _exchange(new, site):
        shutil.rmtree(new, ignore_errors=True)
        return
    site.rename(old)
    new.rename(site)
    shutil.rmtree(old, ignore_errors=True)


def _exchange(first: Path, second: Path) -> bool:
    """Swap two folders in one step; False where the system cannot."""
    if not sys.platform.startswith("linux") or second.is_symlink():
        return False
    renameat2 = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if renameat2 is None:
        return False
    done = renameat2(_AT_FDCWD, os.fsencode(first), _AT_FDCWD, os.fsencode(second), _RENAME_EXCHANGE)
    if done == 0:
        return True
    if ctypes.get_errno() in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP):
        return False
    raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()), str(second))
