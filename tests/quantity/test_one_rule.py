"""Every number in a text has gone through the one rounding rule: nothing else in the program formats one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from support import REPOSITORY, some

PACKAGE = REPOSITORY / "generator/saponary"
HOME = {"quantity/rounding.py", "quantity/numbers.py"}
NUMBERS = re.compile(r"[aefgn%]$", re.IGNORECASE)


def formats(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Places where a number is formatted: in f-strings, by `format`, and by `%`."""
    for node in ast.walk(tree):
        match node:
            case ast.FormattedValue(format_spec=ast.JoinedStr(values=parts)):
                spec = "".join(str(part.value) for part in parts if isinstance(part, ast.Constant))
                if NUMBERS.search(spec):
                    yield node.lineno, spec
            case ast.Constant(value=str() as text) if re.search(r"\{\w*:[^{}]*\d[efg]\}|%\.\d+[efg]\b", text):
                yield node.lineno, text
            case _:
                pass


def test_only_the_rounding_rule_formats_numbers() -> None:
    read = 0
    for path in some(sorted(PACKAGE.rglob("*.py"))):
        name = path.relative_to(PACKAGE).as_posix()
        found = list(formats(ast.parse(path.read_text("utf-8"))))
        read += len(found)
        assert name in HOME or not found, f"{name}: {found}"
    assert read, "the rule itself is not seen, so nothing is"


def test_a_format_is_seen() -> None:
    for text in ('f"{x:.2f}"', 'f"{x:g}"', '"{y:.0f}".format(y=1)', '"%.3f" % x', 'f"{x:{w}.1f}"'):
        assert list(formats(ast.parse(text))), text
    for text in ('f"{x:>8}"', 'f"{x:02x}"', '"100 %"', 'f"{x}"'):
        assert not list(formats(ast.parse(text))), text


def test_templates_format_no_number() -> None:
    for path in some(sorted(Path(REPOSITORY / "templates").rglob("*.html"))):
        assert not re.search(r"\|\s*(round|float|format)\b|%\.\d", path.read_text("utf-8")), path
