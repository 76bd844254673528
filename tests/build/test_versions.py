"""Versions of a formula are told through renames, merges and gaps of a book's history."""

from __future__ import annotations

from pathlib import Path

import pytest

from in_git import commit, git
from saponary.assets.store import NoStore
from saponary.book.changes import Version
from saponary.book.library import read_book
from saponary.build.history import changes_since, sources_log
from saponary.build.proof import prove
from saponary.build.versions import versions
from saponary.lye.fingerprint import matches
from saponary.reading.files import Folder
from support import PLAIN, write_book


def of(root: Path, slug: str = "a") -> tuple[Version, ...]:
    return versions(read_book(Folder(root)), NoStore(), sources_log(root))[slug]


def told(found: tuple[Version, ...]) -> list[tuple[str, dict[str, str], bool]]:
    """What was said of each, its superfat and oils before and after, and whether it is the first."""
    return [
        (
            one.about,
            {
                row.name: f"{row.was.text() if row.was else '-'} {row.now.text() if row.now else '-'}"
                for row in one.moved
                if row.name == "superfat" or row.name.startswith("oil ")
            },
            one.first,
        )
        for one in found
    ]


def superfat(percent: int, text: str = PLAIN) -> str:
    return text.replace("superfat: 5 %", f"superfat: {percent} %")


def olive(text: str) -> str:
    return text.replace("olive: 60 %", "olive: 55 %").replace("coconut: 25 %", "coconut: 30 %")


OILS = {"oil olive": "600.0 g 550.0 g", "oil coconut": "250.0 g 300.0 g"}


def test_a_recipe_is_followed_through_a_rename_with_changes(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/old.md": PLAIN})
    commit(root, "first")
    mark = prove(root).recipes[0].computed.fingerprint
    git(root, "mv", "recipes/old.md", "recipes/a.md")
    lots = f"batches: [{{lot: L1, poured: 2026-01-02, formula: '{mark}'}}]\nsigned:"
    commit(
        write_book(root, {"recipes/a.md": superfat(6).replace("signed:", lots)}), "milder, and a better name"
    )
    assert told(of(root)) == [
        ("milder, and a better name", {"superfat": "5.0 % 6.0 %"}, False),
        ("first", {}, True),
    ]
    proof = prove(root)
    since = changes_since(proof.book, [proof.recipes[0].computed], sources_log(root))["a"]
    assert [matches(found, mark) for found in since] == [True], (
        "a lot's formula is found under the earlier name"
    )


def test_what_went_on_side_by_side_is_told_change_by_change(tmp_path: Path) -> None:
    commit(write_book(tmp_path, {"recipes/a.md": PLAIN}), "first", GIT_COMMITTER_DATE="2026-01-01T10:00:00")
    home = git(tmp_path, "branch", "--show-current")
    git(tmp_path, "checkout", "-qb", "side")
    commit(
        write_book(tmp_path, {"recipes/a.md": superfat(7)}),
        "milder",
        GIT_COMMITTER_DATE="2026-01-02T10:00:00",
    )
    git(tmp_path, "checkout", "-q", home)
    commit(
        write_book(tmp_path, {"recipes/a.md": olive(PLAIN)}), "oils", GIT_COMMITTER_DATE="2026-01-03T10:00:00"
    )
    git(tmp_path, "merge", "-q", "side", "-m", "both", GIT_COMMITTER_DATE="2026-01-04T10:00:00")
    assert superfat(7, olive(PLAIN)) == (tmp_path / "recipes/a.md").read_text()
    assert told(of(tmp_path)) == [
        ("both", {"superfat": "5.0 % 7.0 %"}, False),
        ("oils", OILS, False),
        ("milder", {"superfat": "5.0 % 7.0 %"}, False),
        ("first", {}, True),
    ]


def test_a_recipe_that_was_away_for_a_while(tmp_path: Path) -> None:
    other = {"recipes/b.md": PLAIN.replace("Plain Bar", "Other")}
    commit(write_book(tmp_path, {"recipes/a.md": PLAIN, **other}), "first")
    git(tmp_path, "rm", "-q", "recipes/a.md")
    commit(tmp_path, "without it")
    commit(write_book(tmp_path, {"recipes/a.md": PLAIN}), "back as it was")
    git(tmp_path, "rm", "-q", "recipes/a.md")
    commit(tmp_path, "without it again")
    commit(write_book(tmp_path, {"recipes/a.md": superfat(6)}), "back, milder")
    assert told(of(tmp_path)) == [
        ("back, milder", {"superfat": "5.0 % 6.0 %"}, False),
        ("first", {}, True),
    ]


def test_the_earliest_that_is_looked_at_is_not_told_as_the_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("saponary.build.versions.MOST", 2)
    for percent in (5, 6, 7):
        commit(write_book(tmp_path, {"recipes/a.md": superfat(percent)}), str(percent))
    assert told(of(tmp_path)) == [
        ("7", {"superfat": "6.0 % 7.0 %"}, False),
        ("6", {"superfat": "5.0 % 6.0 %"}, False),
    ]


def test_a_shallow_clone_tells_what_it_has(tmp_path: Path) -> None:
    root = tmp_path / "book"
    for percent in (5, 6, 7):
        commit(write_book(root, {"recipes/a.md": superfat(percent)}), str(percent))
    git(tmp_path, "clone", "-q", "--depth", "2", f"file://{root}", "shallow")
    assert told(of(tmp_path / "shallow")) == [("7", {"superfat": "6.0 % 7.0 %"}, False), ("6", {}, True)]


def test_line_ends_of_other_systems_are_no_change(tmp_path: Path) -> None:
    commit(write_book(tmp_path, {"recipes/a.md": PLAIN}), "first")
    (tmp_path / "recipes/a.md").write_bytes(PLAIN.replace("\n", "\r\n").encode())
    commit(tmp_path, "saved elsewhere")
    (tmp_path / "recipes/a.md").write_bytes(superfat(6).replace("\n", "\r\n").encode())
    commit(tmp_path, "milder")
    assert told(of(tmp_path)) == [("milder", {"superfat": "5.0 % 6.0 %"}, False), ("first", {}, True)]
