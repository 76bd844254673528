"""The catalogue of messages and those who ask it: every key is there, with its places, and none is idle."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from importlib import import_module
from itertools import chain

import pytest
from jinja2 import Environment, nodes

from saponary.messages.speaker import Text, speaker
from source import MODULES, PACKAGE, tree
from source import nodes as in_source
from support import REPOSITORY

TEXTS = speaker().texts
_ASKS = ("message", "say")
_ANY = "[A-Za-z0-9.:+-]+"
LANGUAGES = sorted(path.stem for path in (PACKAGE / "tables" / "messages").glob("*.yaml"))
MAY_LACK = {"name.keep-capital"}
"""A language that keeps every capital within a sentence has none of these."""
FORMS = {"one", "other"}
"""The forms of a plural that the speaker asks for."""

Asked = tuple[str, str, frozenset[str] | None]
"""Where a text is asked for, its key, and the values given with it (None where they are not to be seen)."""


def places(text: Text) -> frozenset[str]:
    forms = (text,) if isinstance(text, str) else text.values()
    return frozenset(chain.from_iterable(re.findall(r"\{([a-z_]+)\}", form) for form in forms))


@cache
def asking() -> list[tuple[str, ast.Call]]:
    """The calls in code that ask for a text, each with its place."""
    calls = [(path, call) for path in MODULES for call in in_source(path, ast.Call)]
    return [
        (f"{path.name}:{call.lineno}", call) for path, call in calls if called(call) in _ASKS and call.args
    ]


@cache
def asking_templates() -> list[tuple[str, nodes.Call]]:
    """The calls in templates that ask for a text, each with its place."""
    engine = Environment()
    engine.filters |= {"said": str, "told": str}
    return [
        (f"{path.name}:{call.lineno}", call)
        for path in sorted((REPOSITORY / "templates").rglob("*.html"))
        for call in engine.parse(path.read_text(encoding="utf-8")).find_all(nodes.Call)
        if isinstance(call.node, nodes.Name) and call.node.name in _ASKS and call.args
    ]


def called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def constants(node: ast.expr) -> list[str]:
    """The strings that an expression may be: itself, or either end of a choice."""
    if isinstance(node, ast.IfExp):
        return constants(node.body) + constants(node.orelse)
    return [node.value] if isinstance(node, ast.Constant) and isinstance(node.value, str) else []


def in_code() -> Iterator[Asked]:
    for where, call in asking():
        open_ended = any(keyword.arg is None for keyword in call.keywords)
        given = None if open_ended else frozenset(k.arg for k in call.keywords if k.arg)
        for key in constants(call.args[0]):
            yield where, key, given


def in_templates() -> Iterator[Asked]:
    for where, call in asking_templates():
        given = frozenset(keyword.key for keyword in call.kwargs)
        for key in _template_keys(call.args[0]):
            yield where, key, given


def _template_keys(node: nodes.Node | None) -> list[str]:
    if isinstance(node, nodes.CondExpr):
        return _template_keys(node.expr1) + _template_keys(node.expr2)
    return [node.value] if isinstance(node, nodes.Const) and isinstance(node.value, str) else []


@cache
def put_together() -> frozenset[str]:
    """Keys that code makes of an id: each table of them stands beside that code."""
    found = set[str]()
    for path in MODULES:
        if any(isinstance(node, ast.Assign) and _names(node) == ["KEYS_BY_ID"] for node in tree(path).body):
            module = import_module(".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts))
            found |= {f"{head}{tail}" for head, tails in module.KEYS_BY_ID.items() for tail in tails}
    return frozenset(found)


def _names(node: ast.Assign) -> list[str]:
    return [target.id for target in node.targets if isinstance(target, ast.Name)]


def patterns() -> Iterator[tuple[str, str]]:
    """Keys with an id in them, as code and templates make them."""
    for where, call in asking():
        if isinstance(call.args[0], ast.JoinedStr):
            parts = call.args[0].values
            yield where, _pattern(part.value if isinstance(part, ast.Constant) else None for part in parts)
    for where, asked in asking_templates():
        if isinstance(asked.args[0], nodes.Concat):
            bits = asked.args[0].nodes
            yield where, _pattern(part.value if isinstance(part, nodes.Const) else None for part in bits)


def _pattern(parts: Iterable[object]) -> str:
    """What a key made of these parts is like; None stands for an id."""
    return "".join(_ANY if part is None else re.escape(str(part)) for part in parts)


def test_every_text_that_is_asked_for_is_there_with_the_values_it_is_given() -> None:
    asked = [*in_code(), *in_templates()]
    assert len(asked) > 300
    wrong = []
    for where, key, given in asked:
        if key not in TEXTS:
            wrong.append(f"{where}: no text {key}")
        elif given is not None:
            plural = {"count"} if not isinstance(TEXTS[key], str) else set()
            if places(TEXTS[key]) | plural != given | plural:
                wrong.append(f"{where}: {key} has {sorted(places(TEXTS[key]))}, given {sorted(given)}")
    assert not wrong, "\n".join(wrong)


def test_every_key_that_is_put_together_stands_in_a_table_and_in_the_catalogue() -> None:
    assert put_together() - set(TEXTS) == set()
    for where, pattern in patterns():
        assert any(re.fullmatch(pattern, key) for key in put_together()), (where, pattern)


def test_no_text_is_idle() -> None:
    written = {
        node.value
        for path in MODULES
        for node in in_source(path, ast.Constant)
        if isinstance(node.value, str)
    }
    used = written | {key for _, key, _ in in_templates()} | put_together()
    assert sorted(set(TEXTS) - used) == []


def faults(texts: Mapping[str, Text]) -> list[str]:
    """What a language lacks of the English catalogue, has beyond it, or gives other places."""
    found = [f"write a text for {key}" for key in sorted(TEXTS.keys() - texts.keys() - MAY_LACK)]
    found += [f"nothing asks for {key}" for key in sorted(texts.keys() - TEXTS.keys())]
    for key in sorted(texts.keys() & TEXTS.keys()):
        here, english = places(texts[key]) - {"count"}, places(TEXTS[key]) - {"count"}
        if here != english:
            found.append(f"{key} has the places {sorted(here)}, expected {sorted(english)}")
        if not isinstance(texts[key], str) and not set(texts[key]) >= FORMS:
            found.append(f"{key} lacks one of the forms {sorted(FORMS)}")
    return found


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_has_the_keys_and_the_places_of_english(language: str) -> None:
    found = faults(speaker(language).texts)
    assert not found, "\n".join(f"tables/messages/{language}.yaml: {fault}" for fault in found)


def test_what_a_language_lacks_is_told() -> None:
    other = {**TEXTS, "list.comma": "{first}", "days": {"one": "{count} day"}, "idle": "nobody asks"}
    del other["nav.gallery"], other["name.keep-capital"]
    assert faults(other) == [
        "write a text for nav.gallery",
        "nothing asks for idle",
        "days lacks one of the forms ['one', 'other']",
        "list.comma has the places ['first'], expected ['first', 'then']",
    ]
