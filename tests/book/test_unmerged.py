"""A place that git could not merge is a finding with its line, in whatever file of a book it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from in_git import commit, git, tried
from saponary.build.proof import prove
from saponary.cli.main import main
from support import PLAIN, write_book

CLASS = """\
---
title: A day
date: 2026-12-05
students: 5
oils: 420 g
recipes: [a]
---
Words.
"""
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">\n<path d="M1 1h7"/>\n</svg>\n'
LINES: dict[str, tuple[str, str, str, str]] = {
    "recipes/a.md": (PLAIN, "superfat: 5 %", "superfat: 6 %", "superfat: 7 %"),
    "recipes/other.md": (PLAIN.replace("Plain Bar", "Other"), "A plain bar.", "A bar.", "A plainer bar."),
    "batches/a.yaml": ("- lot: A1\n  poured: 2026-03-02\n", "2026-03-02", "2026-03-03", "2026-03-04"),
    "classes/day.md": (CLASS, "Words.", "More words.", "No words."),
    "pages/about.md": ("---\ntitle: About\n---\nWords.\n", "Words.", "More.", "Less."),
    "book.yaml": ("title: A\nlanguage: en\n", "title: A", "title: B", "title: C"),
    "pantry.yaml": ("oils:\n  olive: {price: 8.40 / kg}\n", "8.40", "9.40", "7.40"),
    "claims.yaml": ("medical:\n  - words: [balmy]\n", "balmy", "balsamic", "soothsome"),
    "templates/part/foot.html": ("<p>\nWords.\n</p>\n", "Words.", "More.", "Less."),
    "templates/style/99-own.css": (":root {\n--paper: #fff;\n}\n", "#fff", "#eee", "#ddd"),
    "photos/mark.svg": (LOGO, "h7", "h6", "h5"),
}
"""Of each kind of file that a maker writes: its text, a stretch of it, and what two people make of that stretch."""


LOGO_IS = "look: {logo: mark.svg}\n"


@pytest.mark.parametrize("style", ["merge", "zdiff3"])
def test_what_git_could_not_merge_is_found_on_its_line(style: str, tmp_path: Path) -> None:
    files = {name for name in LINES if name != "photos/mark.svg"}
    assert_found(tmp_path / "all", files, style)
    assert main(["build", str(tmp_path / "all")]) == 1 and not (tmp_path / "all" / "site").exists()


def test_in_a_logo_too(tmp_path: Path) -> None:
    write_book(tmp_path, {"book.yaml": LOGO_IS, "recipes/a.md": PLAIN})
    assert_found(tmp_path, {"photos/mark.svg"}, "merge")


def assert_found(root: Path, names: set[str], style: str) -> None:
    """Two people change the same stretch of each file; the one merges what the other did."""
    commit(write_book(root, {name: LINES[name][0] for name in names}), "first")
    git(root, "config", "merge.conflictStyle", style)
    home = git(root, "branch", "--show-current")
    git(root, "checkout", "-qb", "theirs")
    commit(
        write_book(root, {name: LINES[name][0].replace(LINES[name][1], LINES[name][3]) for name in names}),
        "theirs",
    )
    git(root, "checkout", "-q", home)
    commit(
        write_book(root, {name: LINES[name][0].replace(LINES[name][1], LINES[name][2]) for name in names}),
        "ours",
    )
    assert not tried(root, "merge", "-q", "theirs")
    texts = {name: (root / name).read_text() for name in names}
    lines = {name: text[: text.index("<<<<<<<")].count("\n") + 1 for name, text in texts.items()}
    told = [
        str(one.place)
        for one in prove(root).findings
        if one.severity == "error" and "two versions of this file stand here" in one.message
    ]
    assert sorted(told) == sorted(f"{name}:{line}:1" for name, line in lines.items())
