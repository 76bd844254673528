"""Puts the files of a folder that is the program's own in place, one by one, and touches nothing else that lies there.

A list with hashes tells its files from all others, as for a site. Links are not followed.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from saponary.assets.disk import alone_in, clear_parts
from saponary.build import written
from saponary.build.content import content
from saponary.build.survey import survey
from saponary.build.write_site import one_by_one

NO_FOLDER = "this is no folder"
OTHERS = "something lies here that is not the program's"


class InTheWay(Exception):
    """Something of somebody else's lies where files are to be written: where, and what. Nothing was written."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path, self.why = path, why


def lay(folder: Path, listed: Path, files: Mapping[str, bytes], *, alone: bool = False) -> None:
    """Write files into a folder, by their path in it, and remove those of an earlier time that are no longer wanted.

    `listed` is where the list is kept. `alone` where a folder that holds other things is not written to at first.
    Raises InTheWay.
    """
    if os.path.lexists(folder) and (folder.is_symlink() or not folder.is_dir()):
        raise InTheWay(folder, NO_FOLDER)
    folder.mkdir(parents=True, exist_ok=True)
    with alone_in(folder):
        for home in (folder, *(folder / name for name in written.folders_of(files))):
            if not home.is_symlink():
                clear_parts(home)
        _lay(folder, listed, files, alone=alone)


def _lay(folder: Path, listed: Path, files: Mapping[str, bytes], *, alone: bool) -> None:
    known = written.read(listed)
    made = {name: content(data) for name, data in files.items()}
    found = survey(folder, known, made, ("",), adopt=False)
    for path, why in sorted(found.in_the_way.items()):
        raise InTheWay(folder / path, why)
    if alone and not known.files and found.foreign:
        raise InTheWay(folder, OTHERS)
    now = written.of(folder, ((name, one.digest) for name, one in made.items()))
    written.save(listed, known.joined(now))
    one_by_one(folder, made, found)
    written.save(listed, now)
