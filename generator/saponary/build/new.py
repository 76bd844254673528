"""A new recipe with every common key: what must be written is, the rest stands as comments with an example.

The comments are the texts of the keys themselves. A recipe made from another has that one's formula and work,
and none of its batches, figures or notes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.book.recipe_file import RecipeFile
from saponary.book.recipe_text import parse_recipe
from saponary.quantity.rounding import show
from saponary.quantity.units import MASS
from saponary.reading.text_edits import closing_line
from saponary.schema.described import Described, described
from saponary.schema.editors import schema_line
from saponary.schema.fields import kebab
from saponary.schema.recipe import Recipe

_WRITTEN = {
    "oils": {
        "g": "oils:\n  total: 1000 g\n  parts:\n    olive: 60 %\n    coconut: 25 %\n    sunflower-high-oleic: 15 %",
        "oz": "oils:\n  total: 36 oz\n  parts:\n    olive: 60 %\n    coconut: 25 %\n    sunflower-high-oleic: 15 %",
    },
    "superfat": {"": "superfat: 5 %"},
    "water": {"": "water: {lye-strength: 33 %}"},
}
"""Keys that stand in a new recipe, by the unit of the book where that matters."""

_NOT_COMMON = frozenset({"signed", "batches", "waive", "dilute", "soap", "container", "rest"})
"""Keys that commands write, that findings ask for, or that few soaps have."""

_NOT_TAKEN = frozenset({"title", "summary", "signed", "batches", "photo", "label", "private", "waive"})
"""Keys that a recipe does not take from the one it is made from: they are that one's own."""

_HEAD = "---\n" + schema_line("recipe", "recipes/NAME.md").rstrip("\n")

_NOTES = """\
Your notes go here. {lye} of lye goes into {water} of water, never the other way round.
"""


def fresh(title: str, units: str = "g") -> str:
    """The text of a recipe with every common key."""
    return _file((_key(name, text, units, title) for name, text in _common()), _NOTES)


def made_from(other: RecipeFile, title: str, units: str = "g") -> str:
    """The text of a recipe with the formula and the work of another."""
    kept = dict(_blocks(other))
    lines = [_HEAD, f"title: {_quoted(title)}"]
    lines += [block for name, block in kept.items() if name not in _NOT_TAKEN]
    said = {"title", *(kept.keys() - _NOT_TAKEN)}
    more = [
        _commented(text.meaning, in_units(_own_lines(name, text.example), units))
        for name, text in _common()
        if name not in said
    ]
    return "\n".join((*lines, "", *more)) + f"---\n{_NOTES}"


def title_of(slug: str) -> str:
    """A title for a file's name."""
    return " ".join(word.capitalize() for word in slug.split("-"))


def sound(slug: str, text: str) -> bool:
    """Whether the text can be read as a recipe."""
    return parse_recipe(f"recipes/{slug}.md", text).model is not None


def _common() -> Iterator[tuple[str, Described]]:
    for name, text in described(Recipe).items():
        if name not in _NOT_COMMON:
            yield kebab(name), text


def _key(name: str, text: Described, units: str, title: str) -> str:
    if name == "title":
        return f"# {text.meaning}\ntitle: {_quoted(title)}\n"
    if name in _WRITTEN:
        written = _WRITTEN[name]
        return f"{_as_comment(text.meaning)}{written.get(units, next(iter(written.values())))}\n"
    return _commented(text.meaning, in_units(_own_lines(name, text.example), units))


def _own_lines(name: str, example: str) -> str:
    """Of an example, the lines of one key alone."""
    found = re.search(rf"^{re.escape(name)}:.*(?:\n[ -].*)*", example, re.MULTILINE)
    return found[0] if found else example


def in_units(example: str, units: str) -> str:
    """An example in the weights and lengths of a book in ounces: rounded, for it is an example."""
    if units != "oz":
        return example
    return _METRIC.sub(_in_ounces, example)


_POUND, _OUNCE = (float(MASS[unit]) for unit in ("lb", "oz"))
_METRIC = re.compile(r"\b(\d+(?:\.\d+)?) (g/kg|g|mm)(?![\w/])")


def _in_ounces(found: re.Match[str]) -> str:
    value, unit = float(found[1]), found[2]
    if unit == "mm":
        return f"{show(value / 25.4, 1).removesuffix('.0')} in"
    if unit == "g/kg":
        return f"{_short(value * _POUND / 1000.0 / _OUNCE)} oz/lb"
    return f"{_short(value / _OUNCE)} oz"


def _short(value: float) -> str:
    return show(value, 2 if value < 1.0 else 1 if value < 10.0 else 0).removesuffix(".0")


def _commented(meaning: str, example: str) -> str:
    return _as_comment(meaning) + "".join(f"# {line}\n" for line in example.split("\n"))


def _as_comment(text: str) -> str:
    return f"# {text}\n"


def _file(keys: Iterator[str], notes: str) -> str:
    return f"{_HEAD}\n" + "\n".join(keys) + f"---\n{notes}"


def _blocks(other: RecipeFile) -> Iterator[tuple[str, str]]:
    """The keys at the top of a recipe with their lines, as they are written."""
    text = other.text
    tops = sorted((span.start, str(path[0])) for path, span in other.tree.keys.items() if len(path) == 1)
    ends = [*(start for start, _ in tops[1:]), closing_line(other)]
    for (start, name), end in zip(tops, ends, strict=True):
        lines = text[start:end].replace("\r\n", "\n").replace("\r", "\n").rstrip("\n").split("\n")
        while len(lines) > 1 and (not lines[-1].strip() or lines[-1].startswith("#")):
            lines.pop()
        yield name, "\n".join(lines)


def _quoted(title: str) -> str:
    plain = re.fullmatch(r"[A-Za-z][A-Za-z0-9 '-]*", title)
    return title if plain else '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'
