"""Rows as text: what comes back is what went in, and nothing is made that a row does not hold."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

import pytest
from markupsafe import Markup

from saponary.messages.message import Day, Listed, Number, Value, Within, message
from saponary.outputs.plain import as_text, of_text


@dataclass(frozen=True)
class Part:
    name: Value
    on: date
    picture: Markup | None


@dataclass(frozen=True)
class Row:
    parts: tuple[Part, ...]
    pairs: tuple[tuple[str, str], ...]
    traits: dict[str, dict[str, Value]]
    rank: tuple[int, float, str]


ROW = Row(
    (
        Part(
            message("a.key", of=Within("olive"), much=Number(1.0, 2, "g", tight=True)), date(2026, 2, 3), None
        ),
        Part(Listed(("é", Day(date(2026, 1, 1), "short"))), date.max, Markup("<b>&amp;</b>")),
    ),
    (("webp", "a 1x"), ("jpeg", "")),
    {"oil": {"olive": "Olive oil"}, "": {}},
    (0, 0.1 + 0.2, '"quotes"\n'),
)


def test_what_comes_back_is_what_went_in() -> None:
    text = as_text((ROW, ROW))
    assert "\n" not in text
    again = of_text(Row, text)
    assert tuple(again) == (ROW, ROW)
    assert type(again[0].parts[1].picture) is Markup and type(again[0].parts[0].picture) is type(None)
    assert type(again[0].rank[0]) is int and type(again[0].rank[1]) is float


def test_no_other_class_is_made_of_a_text() -> None:
    with pytest.raises(KeyError):
        of_text(Part, '[{"Row":[[],[],{"":[]},[]]}]')


def test_what_is_no_plain_value_goes_into_no_row() -> None:
    for other in (Decimal(1), {1, 2}, b"bytes", Row, object()):
        with pytest.raises(TypeError):
            as_text((other,))


def test_two_classes_of_one_name_are_refused() -> None:
    @dataclass(frozen=True)
    class Message:
        one: Part

    Message.__annotations__["one"] = type(message("x"))
    with pytest.raises(TypeError):
        of_text(Message, "[]")
