"""A comparison tells what git's two checkouts, proofed apart, give; renames, drifts and odd histories too."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path
from typing import Any

import pytest

from in_git import git
from saponary.cli.main import main
from saponary.quantity.rounding import show
from support import PLAIN, write_book

LONG = "Poured in one go.\n" * 200
NAMES = {
    "sodium-hydroxide": "sodium_hydroxide_g",
    "water": "water_g",
    "oils": "oils_g",
}
"""Figures by their name in a comparison, and in what `proof` gives to a program."""


def commit(root: Path, files: dict[str, str], about: str = "a change") -> None:
    write_book(root, files)
    if not (root / ".git").exists():
        git(root, "init", "-q")
    git(root, "add", "-A", "--", ".", ":(exclude).cache")
    git(root, "commit", "--allow-empty", "-qm", about)


def recipe(title: str, superfat: int = 5, olive: int = 60) -> str:
    text = PLAIN.replace("Plain Bar", title).replace("superfat: 5 %", f"superfat: {superfat} %")
    text = text.replace("superfat: 5.0 %", f"superfat: {superfat}.0 %")
    return text.replace("olive: 60 %", f"olive: {olive} %").replace(
        "coconut: 25 %", f"coconut: {85 - olive} %"
    )


def told(capsys: pytest.CaptureFixture[str], root: Path, *words: str) -> dict[str, Any]:
    capsys.readouterr()
    assert main(["compare", *words, "--book", str(root), "--format", "json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def proofed(capsys: pytest.CaptureFixture[str], root: Path) -> dict[str, dict[str, Any]]:
    """Lye, water and superfat of a book by recipe, as `proof` gives them to a program."""
    capsys.readouterr()
    main(["proof", str(root), "--format", "json"])
    return {one["slug"]: one for one in json.loads(capsys.readouterr().out)["recipes"]}


def test_a_change_is_told_with_its_figures(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    commit(tmp_path, {"recipes/a.md": recipe("A"), "recipes/b.md": recipe("B")}, "as first signed")
    write_book(tmp_path, {"recipes/a.md": recipe("A", superfat=6)})
    assert main(["compare", "--book", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "as first signed) to this folder (1 file not committed)" in said
    assert "recipes/a.md\n" in said and "recipes/b.md" not in said
    assert re.search(r"\n  superfat +5\.0 %  ->  6\.0 %  \(\+1\.0 points\)\n", said)
    assert said.endswith("1 recipe changed, 1 did not\n")
    assert main(["compare", "HEAD", "b", "--book", str(tmp_path), "--format", "markdown"]) == 0
    assert capsys.readouterr().out == "## Figures: `HEAD` to this folder\n\n0 recipes changed, 1 did not\n"


def test_a_recipe_under_a_new_name_is_followed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    commit(tmp_path, {"recipes/a.md": recipe("A"), "recipes/b.md": recipe("B", olive=55)})
    git(tmp_path, "mv", "recipes/a.md", "recipes/z.md")
    write_book(
        tmp_path, {"recipes/z.md": recipe("A", superfat=7), "recipes/new.md": recipe("New", olive=70) + LONG}
    )
    (tmp_path / "recipes/b.md").unlink()
    commit(tmp_path, {})
    found = {one["file"]: one for one in told(capsys, tmp_path, "HEAD~1..HEAD")["changed"]}
    assert {file: one["kind"] for file, one in found.items()} == {
        "recipes/z.md": "changed", "recipes/new.md": "new", "recipes/b.md": "gone",
    }  # fmt: skip
    assert found["recipes/z.md"]["was"] == "recipes/a.md"
    assert {row["name"] for row in found["recipes/z.md"]["moved"]} >= {"lye", "superfat"}


def test_each_side_has_its_own_pantry_and_settings(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = "oils:\n  stray: {saponification-value: {value: %s mg/g, range: [180 mg/g, 200 mg/g]}}\n"
    text = recipe("A").replace("olive:", "stray:").replace("superfat: 5 %\n", "")
    first = {"recipes/a.md": text, "pantry.yaml": own % 190, "book.yaml": "superfat: 5 %\n"}
    commit(tmp_path, first)
    commit(tmp_path, {"pantry.yaml": own % 195})
    commit(tmp_path, {"book.yaml": "superfat: 8 %\n"})
    value = told(capsys, tmp_path, "HEAD~2..HEAD~1")["changed"][0]
    assert "superfat" not in {row["name"] for row in value["moved"]}
    assert "lye" in {row["name"] for row in value["moved"]}
    sparing = told(capsys, tmp_path, "HEAD~1..HEAD")["changed"][0]
    assert {"name": "superfat", "before": "5.0 %", "after": "8.0 %", "by": "+3.0 points"} in sparing["moved"]


def test_the_price_of_the_alkali_is_in_the_cost(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """139.8 g of lye at 6.50 and at 9.00 a kilogram: 0.91 and 1.26, by hand."""
    prices = "currency: EUR\nalkali-price: {sodium: %s / kg}\n"
    commit(tmp_path, {"recipes/a.md": recipe("A"), "book.yaml": prices % "6.50"})
    write_book(tmp_path, {"book.yaml": prices % "9"})
    (row,) = told(capsys, tmp_path)["changed"][0]["moved"]
    assert row == {"name": "cost of a batch", "before": "0.91", "after": "1.26", "by": "+0.35"}


def test_what_tables_alone_did_stands_apart(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    signed = recipe("A").replace("  superfat: 5.0 %\n", "  superfat: 5.0 %\n  lye: 138.1 g\n")
    commit(tmp_path, {"recipes/a.md": signed})
    found = told(capsys, tmp_path)
    assert found["changed"] == []
    assert found["by-engine-or-tables"] == [
        {"recipe": "a.md", "name": "lye", "signed": "138.1 g", "today": "139.8 g"}
    ]


def test_what_cannot_be_read_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    commit(tmp_path, {"recipes/a.md": recipe("A").replace("olive:", "olvie:")})
    write_book(tmp_path, {"recipes/a.md": recipe("A")})
    (one,) = told(capsys, tmp_path)["changed"]
    assert one["kind"] == "unreadable" and one["faults"][0].startswith("recipes/a.md:6:5: the oil 'olvie'")


@pytest.mark.parametrize(
    ("file", "text", "fault"),
    [
        ("pantry.yaml", "oils: {olive: {sap: 186}}\n", "pantry.yaml:1:16: unknown key 'sap'"),
        (
            "book.yaml",
            "purity: {sodium: 12 %}\n",
            "book.yaml:1:18: a purity of 12 % is not a purity that is sold",
        ),
    ],
)
def test_without_pantry_and_settings_nothing_is_known(
    file: str, text: str, fault: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The standard tables would give figures, and they would not be the maker's."""
    commit(tmp_path, {"recipes/a.md": recipe("A")})
    write_book(tmp_path, {file: text})
    (one,) = told(capsys, tmp_path)["changed"]
    assert one["kind"] == "unreadable" and one["faults"] == [fault]


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["nowhere~3"], "git knows no revision 'nowhere~3'"),
        (["HEAD..v9"], "git knows no revision 'v9'"),
        (["-x..HEAD"], ""),
        (["HEAD", "bb"], "no recipe 'bb'; did you mean"),
        (["deadbeef"], "git knows no revision 'deadbeef'"),
    ],
)
def test_odd_words(words: list[str], why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    commit(tmp_path, {"recipes/a.md": recipe("A"), "recipes/b.md": recipe("B")})
    assert main(["compare", *words, "--book", str(tmp_path)]) == 2
    assert why in capsys.readouterr().err


def test_without_git_and_without_a_commit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = write_book(tmp_path / "book", {"recipes/a.md": recipe("A")})
    assert main(["compare", "--book", str(root)]) == 2
    assert "is not kept in git" in capsys.readouterr().err
    git(root, "init", "-q")
    assert main(["compare", "--book", str(root)]) == 2
    assert "nothing is committed here yet" in capsys.readouterr().err


def test_a_shallow_clone_says_where_the_rest_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = tmp_path / "book"
    for superfat in (5, 6):
        commit(root, {"recipes/a.md": recipe("A", superfat)})
    git(tmp_path, "clone", "-q", "--depth", "1", f"file://{root}", "shallow")
    assert main(["compare", "HEAD~1", "--book", str(tmp_path / "shallow")]) == 2
    assert "git fetch --unshallow" in capsys.readouterr().err
    assert told(capsys, tmp_path / "shallow")["same"] == 1


def _grown(root: Path, commits: int, rng: random.Random) -> None:
    """A book whose recipes, pantry and settings change from commit to commit."""
    own = "oils:\n  stray: {saponification-value: {value: %d mg/g, range: [180 mg/g, 200 mg/g]}}\n"
    commit(root, {f"recipes/r{n}.md": recipe(f"R{n}") for n in range(4)} | {"pantry.yaml": own % 190})
    for _ in range(commits):
        name = f"recipes/r{rng.randrange(6)}.md"
        text = recipe(name, rng.randrange(3, 9), rng.randrange(50, 80))
        change = rng.choice(["recipe", "recipe", "own oil", "pantry", "move"])
        if change == "move" and (root / name).exists():
            git(root, "mv", name, f"recipes/m{rng.randrange(10**6)}.md")
        files = {
            "recipe": {name: text},
            "own oil": {name: text.replace("olive:", "stray:")},
            "pantry": {"pantry.yaml": own % rng.randrange(185, 196)},
        }
        commit(root, files.get(change, {name: text}))


def _agree(root: Path, pairs: int, rng: random.Random, capsys: pytest.CaptureFixture[str]) -> None:
    """What is told of pairs of revisions is what their checkouts give."""
    ids = git(root, "log", "--format=%H").split()
    proofs: dict[str, dict[str, dict[str, Any]]] = {}
    for _ in range(pairs):
        old, new = rng.sample(ids, 2)
        for id in (old, new):
            if id not in proofs:
                git(root, "worktree", "add", "-q", "--detach", f"../{id}", id)
                proofs[id] = proofed(capsys, root.parent / id)
        found = {
            one["file"].split("/")[1][:-3]: one for one in told(capsys, root, f"{old}..{new}")["changed"]
        }
        before, after = proofs[old], proofs[new]
        for slug in before.keys() & after.keys() - found.keys():
            assert before[slug]["figures"] == after[slug]["figures"], slug
        for slug, one in found.items():
            was = (one["was"] or one["file"]).split("/")[1][:-3]
            assert (was in before) == (one["kind"] != "new") and (slug in after) == (one["kind"] != "gone")
            for row in one["moved"]:
                if row["name"] in NAMES and one["kind"] == "changed":
                    assert row["before"] == _shown(before[was], row["name"])
                    assert row["after"] == _shown(after[slug], row["name"])


def _shown(one: dict[str, Any], name: str) -> str:
    return show(one["figures"][NAMES[name]], 1) + " g"


def test_figures_are_those_of_checkouts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rng = random.Random(5)
    _grown(tmp_path / "book", 6, rng)
    _agree(tmp_path / "book", 4, rng, capsys)


@pytest.mark.slow
def test_figures_are_those_of_a_hundred_pairs_of_checkouts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rng = random.Random(20)
    _grown(tmp_path / "book", 40, rng)
    _agree(tmp_path / "book", 100, rng, capsys)


def test_a_working_tree_of_its_own_and_a_repository_within_another_are_compared(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where `.git` is a file; a repository without files is said to be no book."""
    root = tmp_path / "bücher"
    for superfat in (5, 6):
        commit(root, {"recipes/a.md": recipe("A", superfat)})
    git(root, "worktree", "add", "-q", "--detach", "../beside", "HEAD")
    git(tmp_path, "init", "-q", "above")
    git(tmp_path / "above", "-c", "protocol.file.allow=always", "submodule", "add", "-q", str(root), "book")
    for place in (tmp_path / "beside", tmp_path / "above" / "book"):
        assert (place / ".git").is_file()
        assert [one["kind"] for one in told(capsys, place, "HEAD~1..HEAD")["changed"]] == ["changed"]
    git(tmp_path, "clone", "-q", "--bare", str(root), "bare.git")
    assert main(["compare", "--book", str(tmp_path / "bare.git")]) == 2
    assert "is no book" in capsys.readouterr().err
