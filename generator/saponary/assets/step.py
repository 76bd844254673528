"""A step whose values are kept: its name, what goes into it, and what its code is made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from saponary.assets.digest import code_of, digest
from saponary.assets.for_user import made
from saponary.assets.store import Key

TO_THE_LABEL = (
    "quantity",
    "lye",
    "assets",
    "tables",
    "messages",
    "reading",
    "schema",
    "pantry",
    "book",
    "words",
    "label",
)
"""The rooms that have a say in what a recipe comes to and in what its label says, from the bottom up."""


@dataclass(frozen=True)
class Step:
    """A pure step from values to bytes.

    `uses` names its inputs, in the order in which `key` takes them. `rooms` are the parts of this
    package, and `libraries` the installed distributions, whose code has a say in the result.
    """

    name: str
    uses: tuple[str, ...]
    rooms: tuple[str, ...]
    libraries: tuple[str, ...] = ()

    def key(self, *inputs: object) -> Key:
        """The key of its value for these inputs. Raises ValueError where they are not as many as it uses."""
        if len(inputs) != len(self.uses):
            raise ValueError(f"{self.name} uses {', '.join(self.uses)}; {len(inputs)} inputs were given")
        return key(self.name, _code(self.rooms, self.libraries), *inputs)


def key(step: str, *inputs: object) -> Key:
    """The key of a step's value; `inputs` are the version of its code and all that it reads."""
    return Key(step, digest(inputs))


@cache
def _code(rooms: tuple[str, ...], libraries: tuple[str, ...]) -> str:
    """A digest of the code; the program's own stamps tell whether it is as it was."""
    return made(("code", *rooms, "", *libraries), lambda: _looked_at(rooms, libraries))


def _looked_at(rooms: tuple[str, ...], libraries: tuple[str, ...]) -> str:
    if not libraries:
        return digest([code_of(*rooms), dict[str, str]()])
    from importlib.metadata import version  # reading it takes as long as all else, and few steps ask for it

    return digest([code_of(*rooms), {name: version(name) for name in libraries}])
