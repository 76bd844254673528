"""Begin: a new book with its settings, a pantry, the starter recipes, one recipe with every key explained, and
a README. Never writes over anything.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from saponary.assets import resources
from saponary.assets.disk import put_new
from saponary.build.new import fresh
from saponary.reading.yaml_tree import read_yaml
from saponary.schema.editors import schema_line
from saponary.schema.settings import Settings
from saponary.schema.validate import validate

FIRST = "my-first-bar"
"""The recipe in which every key is explained."""

NUMBERS = {"us": "911", "eu": "112", "gb": "999"}
"""Emergency numbers by place (from memory)."""

STEPS = {"g": "1 g", "oz": "0.05 oz"}
"""The least that a kitchen scale shows, by unit: common practice, no source."""


class Asked(NamedTuple):
    """What a new book is told: the unit of its weights, where soap is sold (ids of places, or none), its language,
    the least that the scale shows, and the emergency number; and who makes the soap.
    """

    units: str = "g"
    sold_in: tuple[str, ...] = ()
    language: str = "en"
    scale_step: str = ""
    emergency: str = ""
    maker: str = ""

    @property
    def step(self) -> str:
        return self.scale_step or STEPS[self.units]

    @property
    def number(self) -> str:
        return self.emergency or (NUMBERS[self.sold_in[0]] if self.sold_in else "")


_BOOK = (
    schema_line("book", "book.yaml")
    + """\
# What holds for every recipe of this book unless the recipe says otherwise.
# saponary manual book lists every key; saponary manual KEY explains one.
title: {title}
maker: {maker}
language: {language}
units: {units}
scale-step: {step}     # the least your scale shows
superfat: 5 %
water: {{lye-strength: 33 %}}
cure: 28     # days before a bar may be called cured
emergency: {emergency}     # the emergency number that your pages show
{sold}"""
)

_NOT_SOLD = """\
# Where you sell, and who answers for the soap there: us, eu or gb.
# sold-in:
#   eu: {responsible: {name: Your Name, address: "Your street, your town"}}
"""

_PLACE = """\
  {place}: {{}}     # add responsible: {{name: Your Name, address: "Your street, your town"}}
"""

_PANTRY = (
    schema_line("pantry", "pantry.yaml")
    + """\
# Your own ingredients and moulds. An entry refines the standard tables value by value, or adds a new one.
# saponary manual pantry lists every key.
moulds:
  # Measure your own, inside, and correct this one.
  loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}

# oils:
#   olive:
#     saponification-value: {value: 189.4 mg/g, range: [188.6 mg/g, 190.2 mg/g], from: certificate of lot 4471}
"""
)

_IGNORE = """\
# What can be built again.
site/
.cache/
.saponary/
.schema/
# What is yours alone: the maker's edition, and papers of your own.
private/
"""

_LONGEST = 100
"""Letters of a folder's name that its book is called by."""

_README = """\
# {title}

A book of soap recipes, built with Saponary. **Lye burns**: weigh twice, wear goggles and gloves.

| file | what it holds |
|---|---|
| `recipes/NAME.md` | one recipe; `recipes/{first}.md` explains every key |
| `book.yaml` | what holds for the whole book |
| `pantry.yaml` | your own ingredients and moulds |
| `batches/`, `classes/`, `photos/` | records of batches, classes, photographs: make them when you need them |
| `site/` | the pages, made by `saponary build`; all of it may be published |
| `private/` | the maker's edition, and papers of your own; git leaves it out |

In this folder:

```sh
saponary new evening-bar      # a new recipe
saponary proof                # check everything, write nothing
saponary sign evening-bar     # sign its figures: it is no draft any more
saponary build                # write site/
saponary record evening-bar   # record a batch
saponary manual               # what everything means
```
"""


class Occupied(Exception):
    """The folder already holds something that would be written over."""


def begin(folder: Path, asked: Asked | None = None, own: Mapping[str, str] | None = None) -> list[Path]:
    """Write a new book into `folder`, and return the files written.

    `own` are the texts of the maker's recipes by name; they take the place of the starter recipes.

    Each file is whole from the moment it is there. What lies there already is left alone; a file that is to
    be written and is there as it would be, since an earlier begin was stopped, is not in the way.
    """
    told = asked or Asked()
    title = folder.resolve().name.replace("_", " ").replace("-", " ").strip().capitalize() or "My soap book"
    title = title[:_LONGEST]
    files: dict[Path, bytes] = {
        folder / "book.yaml": _book(title, told).encode(),
        folder / "pantry.yaml": _PANTRY.encode(),
        folder / "recipes" / f"{FIRST}.md": fresh("My First Bar", told.units).encode(),
    }
    beside = {"README.md": _README.format(title=title, first=FIRST), ".gitignore": _IGNORE}
    for name, text in beside.items():  # private folders keep themselves out of git besides
        if not os.path.lexists(folder / name):
            files[folder / name] = text.encode()
    starters = sorted(resources.starters().glob("*.md")) if own is None else []
    for starter in starters:
        files[folder / "recipes" / starter.name] = starter.read_bytes()
    for name, text in (own or {}).items():
        files[folder / "recipes" / f"{name}.md"] = text.encode()
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


def settings_of(asked: Asked) -> Settings:
    """The settings that a new book will have."""
    tree, _ = read_yaml(_book("", asked), "book.yaml")
    given, _ = validate(Settings, tree, "book.yaml")
    return given or Settings()


def _is_there(path: Path, data: bytes) -> bool:
    """Whether a file is there as it is to be. Raises Occupied where something else is."""
    above = next(one for one in (path, *path.parents) if os.path.lexists(one))
    if above != path:
        if not above.is_dir():
            raise Occupied(str(above))
        return False
    if not path.is_file() or path.is_symlink() or path.read_bytes() != data:
        raise Occupied(str(path))
    return True


def _book(title: str, told: Asked) -> str:
    sold = "".join(_PLACE.format(place=place) for place in told.sold_in)
    return _BOOK.format(
        title=_yaml_text(title),
        maker=_yaml_text(told.maker),
        language=told.language,
        units=told.units,
        step=told.step,
        emergency=_yaml_text(told.number),
        sold=f"sold-in:\n{sold}" if sold else _NOT_SOLD,
    )


def _yaml_text(title: str) -> str:
    return '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'
