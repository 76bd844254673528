"""What kept a command from writing, as findings: the disk, another command, or what stands in the way."""

from __future__ import annotations

import errno
from pathlib import Path

from saponary.build.write_site import Refused
from saponary.reading.decode import printable
from saponary.reading.findings import Finding, Place

_SHOWN = 10
"""Files in the way that are told one by one."""

_HINTS = {
    errno.ENOSPC: "make room on the disk and run the command again",
    errno.EDQUOT: "make room on the disk and run the command again",
    errno.EFBIG: "make room on the disk, or raise the limit of a file's size, and run the command again",
    errno.EROFS: "this disk can only be read; work on a copy that may be written",
    errno.EACCES: "see to it that you may read and write this file and its folder",
    errno.EPERM: "see to it that you may read and write this file and its folder",
    errno.ENOENT: "it was there when the command began; run it again",
    errno.ESTALE: "run the command again",
    errno.ENOTDIR: "move away what stands there in place of a folder, and run the command again",
    errno.EEXIST: "something came to lie there meanwhile; look at it, and run the command again",
    errno.EMFILE: "close other programs and run the command again",
    errno.ENAMETOOLONG: "give the file and its folders shorter names",
}


def of_disk(error: OSError, root: Path) -> Finding:
    """A fault of the disk, told of the file it came with, by its path in the book `root` where it lies there."""
    why = error.strerror or str(error) or type(error).__name__
    hint = _HINTS.get(error.errno or 0, "look at the disk and run the command again")
    return _finding(_named(error.filename, root), f"the disk does not do as asked: {why}", hint)


def of_refused(refused: Refused) -> list[Finding]:
    """A finding for each thing that stands in the way, up to a number of them."""
    told = [_finding(path, why, hint) for path, (why, hint) in sorted(refused.faults.items())]
    if len(told) > _SHOWN:
        more = _finding(
            told[_SHOWN].place.file, f"{len(told) - _SHOWN} more files are in the way", told[_SHOWN].hint
        )
        told = [*told[:_SHOWN], more]
    return told


def of_busy(why: str) -> Finding:
    """Another command was waited for in vain."""
    return _finding(".", why, "wait until it has ended, and run this again")


def of_saved(name: str) -> Finding:
    """A file is saved by another program again and again."""
    return _finding(
        name,
        "another program saves this file while it is being written",
        "close it there, and run this again",
    )


def _named(name: object, root: Path) -> str:
    """A file's path as the maker knows it: that of a copy aside is that of the site."""
    if not isinstance(name, str) or not name:
        return str(root)
    path = Path(name)
    home = root.resolve()
    if path.absolute().is_relative_to(home):
        path = path.absolute().relative_to(home)
    return path.as_posix()


def _finding(file: str, message: str, hint: str) -> Finding:
    return Finding("writing", "error", Place(printable(file)), message, hint)
