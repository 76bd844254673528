"""Begin: a new book from the starter recipes. Never writes over anything."""

from __future__ import annotations

from pathlib import Path

from saponary.assets import resources

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

_IGNORE = "site/\n.cache/\n.site-new/\n.site-old/\n"


class Occupied(Exception):
    """The folder already holds something that would be written over."""


def begin(folder: Path) -> list[Path]:
    """Write a new book into `folder`, and return the files written."""
    title = folder.resolve().name.replace("_", " ").replace("-", " ").strip().capitalize() or "My soap book"
    files: dict[Path, bytes] = {
        folder / "book.yaml": _BOOK.format(title=_yaml_text(title)).encode(),
        folder / "pantry.yaml": _PANTRY.encode(),
        folder / ".gitignore": _IGNORE.encode(),
    }
    for starter in sorted(resources.starters().glob("*.md")):
        files[folder / "recipes" / starter.name] = starter.read_bytes()
    taken = [path for path in files if path.exists()]
    if taken or (folder.exists() and not folder.is_dir()):
        raise Occupied(str(taken[0] if taken else folder))
    for path, data in files.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as out:
            out.write(data)
    (folder / "photos").mkdir(exist_ok=True)
    return list(files)


def _yaml_text(title: str) -> str:
    return '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'
