"""Says messages in one language: keys into words, plurals, lists and numbers.

A text of the catalogue is a string with places such as `{strength}`, or a map of plural
forms by their CLDR names (`one`, `other`) from which the value `count` chooses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import get_args

import yaml

from saponary.assets.for_user import made
from saponary.messages.message import Day, DayStyle, Listed, Message, Number, Value, Within
from saponary.quantity.numbers import WeightUnit, in_book_units
from saponary.quantity.rounding import show

FALLBACK = "en"
_PLACE = re.compile(r"\{([a-z_]+)\}")

Text = str | Mapping[str, str]
Nested = Mapping[str, "str | Nested | None"]


@dataclass(frozen=True)
class Speaker:
    """One language's words, and the units of one book. Raises KeyError for a key that the catalogue lacks."""

    language: str
    texts: Mapping[str, Text]
    units: WeightUnit = "g"
    parted: dict[tuple[str, str], Sequence[str]] = field(
        default_factory=dict[tuple[str, str], Sequence[str]], compare=False, repr=False
    )
    """Texts that were said before, by key and plural form: words and names of places in turn."""

    def say(self, what: Value | None) -> str:
        """Any value as text: maker's words as they are, messages by the catalogue, numbers by the rule."""
        return "" if what is None else self._said(what)

    def _said(self, what: Value) -> str:
        """A value, or a part of one."""
        if isinstance(what, str):
            return self.literal(what)
        if isinstance(what, Message):
            return self._filled(what)
        if isinstance(what, Number):
            return self.number(what)
        if isinstance(what, Day):
            return self.day(what)
        if isinstance(what, Listed):
            return self.listed(what)
        if isinstance(what, Within):
            return self.literal(self.within(what.name))
        return self.literal(str(what))

    def literal(self, text: str) -> str:
        """Words of the maker or the catalogue as they go out; a kind of output may mask some signs."""
        return text

    def __call__(self, key: str | Value | None, /, **values: Value) -> str:
        """For templates: `say("work.lye.title")`, `say(line.note)`."""
        return self.say(Message(key, values) if isinstance(key, str) else key)

    def has(self, key: str) -> bool:
        return key in self.texts

    def number(self, number: Number) -> str:
        value, decimals, unit = in_book_units(number.value, number.decimals, number.unit, self.units)
        text = show(value, decimals)
        if number.short and "." in text:
            text = text.rstrip("0").rstrip(".")
        said = f"{text} {'' if number.bare else unit}".rstrip().replace("-", "−")
        return said.replace(" ", "\u00a0") if number.tight else said

    def day(self, day: Day) -> str:
        """A date, its parts kept on one line."""
        on, month = day.on, "month-short" if day.style == "short" else "month"
        values: dict[str, Value] = {"day": on.day, "month": self._word(f"{month}.{on.month}")}
        if day.style != "no-year":
            values["year"] = str(on.year)
        if day.style == "weekday":
            values["weekday"] = self._word(f"weekday.{on.isoweekday()}")
        return self._filled(Message(f"date.{day.style}", values))

    def _word(self, key: str) -> str:
        """A text that has no places."""
        return str(self.texts[key])

    def listed(self, listed: Listed) -> str:
        """`a, b and c`."""
        said = [self._said(item) for item in listed.items]
        if len(said) < 2:
            return "".join(said)
        return f"{', '.join(said[:-1])} {self.texts['list.and']} {said[-1]}"

    def within(self, name: str) -> str:
        """Without what is said after a comma or in brackets. Where the catalogue lists the words
        that keep their capital, any other name has a small initial; else all stay as they are."""
        name = name.partition(",")[0].partition(" (")[0]
        first = name.partition(" ")[0]
        proper = self.texts.get("name.keep-capital")
        if not isinstance(proper, str) or first.isupper() or first in proper.split() or first.endswith("'s"):
            return name
        return name[:1].lower() + name[1:]

    def _filled(self, message: Message) -> str:
        words, *places = self._parts(message)
        if not places:
            return words
        said = [self._said(message.values[name]) for name in places[::2]]
        return words + "".join([part for pair in zip(said, places[1::2], strict=True) for part in pair])

    def _parts(self, message: Message) -> Sequence[str]:
        """The text of a message: words, then the name of each place and the words after it."""
        text = self.texts[message.key]
        form = "" if isinstance(text, str) else self._form(message.values["count"])
        found = self.parted.get((message.key, form))
        if found is None:
            chosen = text if isinstance(text, str) else text[form]
            found = self.parted[message.key, form] = _PLACE.split(str(self.literal(chosen)))
        return found

    def _form(self, count: Value) -> str:
        number = count.value if isinstance(count, Number) else count
        return "one" if number == 1 else "other"


KEYS_BY_ID = {
    "date.": get_args(DayStyle),
    "month.": tuple(map(str, range(1, 13))),
    "month-short.": tuple(map(str, range(1, 13))),
    "weekday.": tuple(map(str, range(1, 8))),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def speaker(language: str = FALLBACK, units: WeightUnit = "g") -> Speaker:
    """The words of a language, with weights in `units`; of the wider tag where a narrow one has no catalogue.

    `de` stands for `de-AT`, as RFC 4647 looks tags up, and English where no tag has one.
    """
    return _speaker(language, units)


@cache
def _speaker(language: str, units: WeightUnit) -> Speaker:
    found, texts = _catalogue(language)
    return Speaker(found, texts, units)


@cache
def _catalogue(language: str) -> tuple[str, Mapping[str, Text]]:
    """The language whose catalogue is there, and its texts."""
    file = files("saponary.tables").joinpath("messages", f"{language}.yaml")
    if not file.is_file():
        return _catalogue(language.rpartition("-")[0] or FALLBACK)
    return language, made(("messages", language), lambda: dict(_flat(_read(file.read_bytes()), "")))


def _read(data: bytes) -> Nested:
    found: Nested = yaml.load(data, Loader=yaml.CBaseLoader)
    return found


_FORMS = frozenset({"zero", "one", "two", "few", "many", "other"})


def _flat(data: Nested, path: str) -> Iterator[tuple[str, Text]]:
    for key, value in data.items():
        if isinstance(value, str):
            yield f"{path}{key}", value
        elif not isinstance(value, Mapping):
            raise ValueError(f"{path}{key}: a text or a map of texts is needed")
        elif set(value) <= _FORMS:
            yield f"{path}{key}", {form: str(text) for form, text in value.items()}
        else:
            yield from _flat(value, f"{path}{key}.")
