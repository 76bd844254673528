"""What the disk is asked for: two things exchanged in one step, what was written flushed, and no file written over."""

from __future__ import annotations

import ctypes
import errno
import os
import re
import sys
import tempfile
from collections.abc import Generator, Iterable
from contextlib import contextmanager, suppress
from pathlib import Path

PART = ".part"
"""How the name of a file ends that is not yet whole."""
_MAX_NAME = 80

_IS_PART = re.compile(r"\.(.+)\.[a-z0-9_]{8}" + re.escape(PART))
_AT_FDCWD, _RENAME_EXCHANGE = -100, 2
_CANNOT = (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP)
_AT_ONCE = 16
"""Files flushed at the same time: the system then writes its journal once for many."""
_VERY_MANY = 500


def exchange(first: Path, second: Path) -> bool:
    """Swap two files or folders in one step; False where the system cannot, OSError where it may not."""
    if not sys.platform.startswith("linux"):
        return False
    renameat2 = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if renameat2 is None:
        return False
    done = renameat2(_AT_FDCWD, os.fsencode(first), _AT_FDCWD, os.fsencode(second), _RENAME_EXCHANGE)
    if done == 0:
        return True
    number = ctypes.get_errno()
    if number in _CANNOT:
        return False
    raise OSError(number, os.strerror(number), str(second))


def flush(path: Path) -> None:
    """Have the system write a file or folder down, so that it outlasts a loss of power."""
    try:
        handle = os.open(path, os.O_RDONLY)
    except OSError:  # a folder, where the system opens none
        if path.is_dir():
            return
        raise
    try:
        with suppress(*_unflushable(path)):
            os.fsync(handle)
    finally:
        os.close(handle)


def _unflushable(path: Path) -> tuple[type[OSError], ...]:
    """Some systems and shares flush no folders."""
    return (OSError,) if path.is_dir() else ()


def flush_all(paths: Iterable[Path]) -> None:
    """The same for many, all on one disk; the system is asked for all that waits for it at once, where there are very many."""
    several = list(paths)
    if len(several) < _VERY_MANY or not _flush_disk_of(several[-1]):
        from concurrent.futures import ThreadPoolExecutor  # where several files are written

        with ThreadPoolExecutor(_AT_ONCE) as pool:
            list(pool.map(flush, several))


def _flush_disk_of(path: Path) -> bool:
    """Have the system write down all that waits for the disk of a path; False where it cannot."""
    syncfs = getattr(ctypes.CDLL(None, use_errno=True), "syncfs", None) if sys.platform == "linux" else None
    if syncfs is None:
        return False
    handle = os.open(path, os.O_RDONLY)
    try:
        return bool(syncfs(handle) == 0)
    finally:
        os.close(handle)


def beside(path: Path, data: bytes) -> Path:
    """A file of these bytes in the same folder, flushed, under a name that nothing else has."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:_MAX_NAME]}.", suffix=PART)
    made = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
    except BaseException:
        made.unlink(missing_ok=True)
        raise
    return made


def is_part(name: str) -> str:
    """The name of the file that one not yet whole (`beside`) was to be; '' for the name of any other."""
    found = _IS_PART.fullmatch(name)
    return found[1] if found else ""


def clear_parts(folder: Path) -> None:
    """Remove what was being written in a folder when a command was killed. Nobody else may be writing there."""
    with suppress(OSError):
        for path in folder.iterdir():
            if is_part(path.name) and path.is_file():
                path.unlink()


@contextmanager
def alone_in(folder: Path) -> Generator[None, None, None]:
    """Hold a folder that is no book against other commands of this program, where the system locks folders.

    The lock ends with the process. Another waits."""
    if sys.platform == "win32":
        yield
        return
    import fcntl

    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # a share that has no locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def put(path: Path, data: bytes) -> None:
    """Put a file of the program's own in place; killed or without power, it is the old one or the new."""
    path.parent.mkdir(parents=True, exist_ok=True)
    made = beside(path, data)
    try:
        made.replace(path)
    except BaseException:
        made.unlink(missing_ok=True)
        raise
    flush(path.parent)


def put_new(path: Path, data: bytes, mode: int = 0o644) -> None:
    """Put a file where nothing is, whole from its first moment. Raises FileExistsError where something is."""
    path.parent.mkdir(parents=True, exist_ok=True)
    made = beside(path, data)
    try:
        made.chmod(mode & ~_umask())
        try:
            os.link(made, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            if os.path.lexists(path):
                raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path)) from None
            made.rename(path)
            return
    finally:
        made.unlink(missing_ok=True)
    flush(path.parent)


def _umask() -> int:
    old = os.umask(0)
    os.umask(old)
    return old
