"""What is listed of every rule: its name, what it is for, what it may find, and where it may be waived.

`listed()` reads this from the text of the rules' modules, where it stands beside what they check, so that a
list of the rules brings in nothing that they check with.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields
from importlib.resources import files
from typing import Any, Literal

from saponary.reading.findings import Home, Severity

Family = Literal["reading", "stale", "danger", "sense", "words", "label"]

NOWHERE: tuple[Home, ...] = ()
IN_RECIPES: tuple[Home, ...] = ("recipe",)
IN_CLASSES: tuple[Home, ...] = ("class",)
IN_THE_PANTRY: tuple[Home, ...] = ("pantry",)
IN_THE_BOOK: tuple[Home, ...] = ("book",)
IN_TEXTS: tuple[Home, ...] = ("recipe", "page", "book")
EVERYWHERE: tuple[Home, ...] = ("recipe", "class", "page", "book", "pantry")

ERROR: tuple[Severity, ...] = ("error",)
WARNING: tuple[Severity, ...] = ("warning",)
BOTH: tuple[Severity, ...] = ("error", "warning")


@dataclass(frozen=True)
class Listed:
    """A rule by its stable name. `about` says in plain words what it is for.

    `kinds` are the severities that its findings may have. `waivable` names the kinds of file that
    may waive it. Where one file may hold several findings of a rule, each is about one thing, which
    `each` names in a word, and which a waiver names too; it is empty where a file as a whole is meant.
    """

    name: str
    family: Family
    about: str
    kinds: tuple[Severity, ...] = ERROR
    waivable: tuple[Home, ...] = NOWHERE
    each: str = ""


_LINE = re.compile(r"^    ([a-z_]+)\.([A-Z_]+),$", re.MULTILINE)
"""A line of `RULES`: a module, and the name that the rule has there."""

_FIELDS = tuple(field.name for field in fields(Listed))


def listed() -> Iterator[Listed]:
    """Every rule, in the order of `RULES`."""
    room = files("saponary.checks")
    texts = dict[str, str]()
    for module, name in _LINE.findall(room.joinpath("rules.py").read_text(encoding="utf-8")):
        if module not in texts:
            texts[module] = room.joinpath(f"{module}.py").read_text(encoding="utf-8")
        yield _of_text(texts[module], name)


def _of_text(text: str, name: str) -> Listed:
    """The rule that a module's text gives this name."""
    found = re.search(rf"^{name} = (Rule\(.*?^\))$", text, re.MULTILINE | re.DOTALL)
    assert found is not None, f"no rule {name} is written here"
    call = ast.parse(found[1], mode="eval").body
    assert isinstance(call, ast.Call)
    said = dict(zip(_FIELDS, call.args, strict=False))
    said |= {word.arg: word.value for word in call.keywords if word.arg in _FIELDS}
    return Listed(**{field: _value(node) for field, node in said.items()})


def _value(node: ast.expr) -> Any:
    """A text as it stands, or one of the names above."""
    return globals()[node.id] if isinstance(node, ast.Name) else ast.literal_eval(node)
