"""Begin: a new book from the starter recipes. Never writes over anything."""

from __future__ import annotations

import os
from pathlib import Path

from saponary.assets import resources
from saponary.assets.disk import put_new

_BOOK = """\
# What holds for every recipe of this book unless the recipe says otherwise.
title: {title}
maker: ""
language: en
units: g
scale-step: 1 g          # the least your scale shows
superfat: 5 %
water: {{lye-strength: 33 %}}
cure: 28                 # days before a bar may be called cured
emergency: ""            # the emergency number your pages should show
"""

_PANTRY = """\
# Your own ingredients. An entry refines the standard table value by value, or adds a new one.
# oils:
#   olive:
#     saponification-value: {value: 189.4 mg/g, range: [188.6 mg/g, 190.2 mg/g], from: certificate of lot 4471}
# moulds:
#   loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}

"""

_IGNORE = "site/\nprivate/\n.cache/\n.saponary/\n"


_LONGEST = 100
"""Letters of a folder's name that its book is called by."""


class Occupied(Exception):
    """The folder already holds something that would be written over."""


def begin(folder: Path) -> list[Path]:
    """Write a new book into `folder`, and return the files written.

    Each file is whole from the moment it is there. What lies there already is left alone; a file that is to
    be written and is there as it would be, since an earlier begin was stopped, is not in the way.
    """
    title = folder.resolve().name.replace("_", " ").replace("-", " ").strip().capitalize() or "My soap book"
    files: dict[Path, bytes] = {
        folder / "book.yaml": _BOOK.format(title=_yaml_text(title[:_LONGEST])).encode(),
        folder / "pantry.yaml": _PANTRY.encode(),
    }
    own_list = folder / ".gitignore"
    if not os.path.lexists(own_list):  # private folders keep themselves out of git besides
        files[own_list] = _IGNORE.encode()
    for starter in sorted(resources.starters().glob("*.md")):
        files[folder / "recipes" / starter.name] = starter.read_bytes()
    missing = [path for path, data in files.items() if not _is_there(path, data)]
    if not missing:
        raise Occupied(str(folder / "book.yaml"))
    for path in missing:
        try:
            put_new(path, files[path])
        except FileExistsError:
            raise Occupied(str(path)) from None
    (folder / "photos").mkdir(exist_ok=True)
    return missing


def _is_there(path: Path, data: bytes) -> bool:
    """Whether a file is there as it is to be. Raises Occupied where something else is."""
    for above in (path, *path.parents):
        if os.path.lexists(above):
            break
    if above != path:
        if not above.is_dir():
            raise Occupied(str(above))
        return False
    if not path.is_file() or path.is_symlink() or path.read_bytes() != data:
        raise Occupied(str(path))
    return True


def _yaml_text(title: str) -> str:
    return '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'
