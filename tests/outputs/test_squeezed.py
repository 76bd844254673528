"""A style sheet says the same with less. The other reader is tinycss2, a parser of CSS Syntax Level 3."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
import tinycss2

from saponary.assets import resources
from saponary.outputs.squeezed import squeezed

STYLES = sorted((resources.templates() / "style").glob("*.css"))
MARKS = ("{", "}", ";", ",")


def meant(style: str) -> list[Any]:
    """Selectors and declarations in order, each as its tokens without white space at marks and without comments."""
    return [
        _rule(rule) for rule in tinycss2.parse_stylesheet(style, skip_comments=True, skip_whitespace=True)
    ]


def _rule(rule: Any) -> Any:
    return (rule.type, _said(rule.prelude), _said(rule.content or []))


def _said(tokens: Sequence[Any]) -> list[str]:
    kept = list[str]()
    for word in _words(tokens):
        if word in MARKS and kept and kept[-1] == " ":
            kept.pop()
        if word != " " or (kept and kept[-1] not in (*MARKS, " ")):
            kept.append(word)
    return kept[:-1] if kept and kept[-1] == " " else kept


def _words(tokens: Sequence[Any]) -> Iterator[str]:
    for token in tokens:
        if token.type == "whitespace":
            yield " "
        elif token.type == "function":
            yield from (f"{token.name}(", *_words(token.arguments), ")")
        elif token.type.endswith(" block"):
            start, end = token.type[:2]
            yield from (start, *_words(token.content), end)
        elif token.type != "comment":
            yield token.serialize()


@pytest.mark.parametrize("path", STYLES, ids=lambda path: path.name)
def test_every_style_of_ours_says_the_same(path: Path) -> None:
    plain = path.read_text("utf-8")
    made = squeezed(plain.encode()).decode()
    assert meant(made) == meant(plain)
    assert len(made) < len(plain) and "/*" not in made and "  " not in made


@pytest.mark.parametrize(
    ("plain", "made"),
    [
        ('p::before { content: "a /* b */ ; c" }', 'p::before{content: "a /* b */ ; c"}'),
        ("q { quotes: '\\'' '{  }'; }", "q{quotes: '\\'' '{  }';}"),
        ("a/* x */b , c > d /* y */ e {top : 0}", "a/**/b,c > d e{top : 0}"),
        ("@media (a) and (b) {\n  p { x: calc(1px + 2px) }\n}\n", "@media (a) and (b){p{x: calc(1px + 2px)}\n}"),
        ("p { --empty: ; }", "p{--empty:;}"),
    ],
)  # fmt: skip
def test_what_is_quoted_or_parts_words_stays(plain: str, made: str) -> None:
    assert squeezed(plain.encode()).decode() == made
