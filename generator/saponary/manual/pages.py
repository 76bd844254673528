"""What the manual's pages show: topics, keys and findings, for their templates."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from saponary.checks.listed import listed
from saponary.manual.colour_variables import colour_variables
from saponary.manual.held import found
from saponary.manual.keys import PLACES, Key, default_of, keys_of
from saponary.manual.rule_lines import waived
from saponary.manual.sample import RECIPES
from saponary.manual.terminal import seen
from saponary.manual.topics import Fence, Topic, topics
from saponary.manual.troubles import troubles
from saponary.messages.message import Value
from saponary.views import links
from saponary.views.prose import Prose

INDEX = "index.html"
FINDINGS = "findings/index.html"
SAMPLE = "sample/"
"""Where the built sample book lies."""

_HEADING = re.compile(r"^##+ (.*)$", re.MULTILINE)


def topic_page(slug: str) -> str:
    return f"topics/{slug}/index.html"


def keys_page(file: str) -> str:
    return f"keys/{file}/index.html"


class Built(NamedTuple):
    """What the engine made of an example: its drawing, some figures, and its page in the sample book."""

    title: str
    drawing: str
    words: Value
    figures: tuple[tuple[str, str], ...]
    page: str


class Block(NamedTuple):
    """A part of a topic: prose as HTML, or a text to write, with what it comes to where it is a recipe."""

    prose: Markup | None = None
    code: str = ""
    rows: tuple[tuple[str, str], ...] = ()
    built: Built | None = None


@dataclass(frozen=True)
class Card:
    """One key as its page shows it."""

    anchor: str
    path: str
    meaning: Markup
    form: str
    required: bool
    default: str
    seen: str
    since: str
    example: str


def blocks(topic: Topic, built: Callable[[str], Built], style: str) -> Iterator[Block]:
    """A topic's parts. `built` tells what an example came to, and `style` is the standard style sheet."""
    prose, under = Prose({}), topic.title
    for part in topic.parts():
        if isinstance(part, str):
            headings = _HEADING.findall(part)
            under = headings[-1] if headings else under
            yield Block(prose=_captioned(prose.block(part, top=2), under))
        elif part.kind == "variables":
            yield Block(rows=tuple(colour_variables(style)))
        else:
            yield Block(code=part.text.rstrip("\n"), built=_built(part, built))


def _captioned(html: Markup, words: str) -> Markup:
    """A table says what it is of, and its heads what they head."""
    caption = Markup("<table>\n<caption>{}</caption>").format(words)
    return Markup(str(html).replace("<table>", caption).replace("<th>", '<th scope="col">'))


def _built(part: Fence, built: Callable[[str], Built]) -> Built | None:
    return built(part.name) if part.kind in RECIPES else None


def cards(file: str) -> tuple[Card, ...]:
    """The keys of a kind of file."""
    return tuple(_card(key) for key in keys_of(file))


def _card(key: Key) -> Card:
    return Card(
        anchor=links.anchor(key.dotted),
        path=key.dotted,
        meaning=Prose({}).inline(key.meaning),
        form=key.form,
        required=key.required,
        default=default_of(key),
        seen=seen(key),
        since=key.since,
        example=key.example,
    )


def contents() -> Sequence[tuple[str, str]]:
    """Topics: where each lies and what it is called."""
    return tuple((topic_page(one.slug), one.title) for one in topics())


def files() -> Sequence[tuple[str, str, int]]:
    """Kinds of file: where their keys lie, which file it is, and how many keys."""
    return tuple((keys_page(file), PLACES[file], len(keys_of(file))) for file in PLACES)


class Told(NamedTuple):
    """One rule: what it is for, what it says of a sample, and what to do."""

    rule: str
    about: str
    place: str
    wrong: str
    findings: tuple[str, ...]
    do: Markup
    right: str
    waived: str


def told() -> Iterator[Told]:
    """Every rule, by its name, with what it says today of its sample."""
    samples = troubles()
    for rule in sorted(listed(), key=lambda one: one.name):
        one = samples[rule.name]
        said = [each for each in found(one, one.wrong) if each.rule == rule.name] if one.wrong else []
        yield Told(
            rule=rule.name,
            about=rule.about,
            place=one.place,
            wrong=one.wrong,
            findings=tuple(f"{each.severity}: {each.message}; {each.hint}" for each in said),
            do=Prose({}).inline(one.do),
            right=one.right,
            waived=waived(rule),
        )
