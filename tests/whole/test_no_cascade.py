"""One mistake is told once: a recipe that cannot be computed brings no finding in another file but such as name it."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.reading.findings import Finding
from support import copy_book

pytestmark = pytest.mark.slow


def _unread(text: str) -> str:
    return text.replace("---\n", "---\nmore: [\n", 1)


def _oil(text: str) -> str:
    return re.sub(r"\n(    )([a-z-]+): ", r"\n\1zz\2: ", text, count=1)


def _title(text: str) -> str:
    return re.sub(r"^title:.*$", "title:", text, count=1, flags=re.M)


def _kinds(findings: tuple[Finding, ...], slug: str) -> Counter[tuple[str, str]]:
    """Rules and files of the findings that are in other files and do not name the recipe."""
    return Counter(
        (f.rule, f.place.file)
        for f in findings
        if f.place.file != f"recipes/{slug}.md" and slug not in f.message
    )


@pytest.mark.parametrize("name", ["demo", "starters"])
def test_a_broken_recipe_is_found_fault_with_alone(name: str, tmp_path: Path) -> None:
    root = copy_book(name, tmp_path)
    clean = prove(root).findings
    recipes = sorted((root / "recipes").glob("*.md"))
    assert recipes
    for path in recipes:
        text = path.read_text(encoding="utf-8")
        for mistake in (_unread, _oil, _title):
            path.write_text(mistake(text), encoding="utf-8")
            found = prove(root).findings
            assert any(f.severity == "error" and f.place.file == f"recipes/{path.name}" for f in found)
            more = _kinds(found, path.stem) - _kinds(clean, path.stem)
            assert not more, (path.name, mistake.__name__, more)
        path.write_text(text, encoding="utf-8")
