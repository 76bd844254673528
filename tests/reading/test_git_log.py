"""The history is what git tells of it, whatever a maker's settings of git, a file's name, or the shape of the history."""

from __future__ import annotations

from pathlib import Path

from in_git import commit, git
from saponary.reading.git_log import commits, followed
from support import write_book

LONG = "".join(f"line {n}\n" for n in range(30))


def test_a_commit_has_its_files_its_day_and_what_it_follows(tmp_path: Path) -> None:
    root = write_book(tmp_path / "top" / "bücher" / "seife", {"recipes/a.md": "1\n", "recipes/é b.md": "1\n"})
    git(tmp_path / "top", "init", "-q")
    git(root, "config", "log.showSignature", "true")
    git(root, "config", "color.ui", "always")
    git(root, "config", "log.date", "relative")
    commit(root, "erste  Fassung", GIT_COMMITTER_DATE="2026-03-02T10:00:00+0000")
    commit(write_book(root, {"notes.txt": "n"}), "of no recipe")
    commit(
        write_book(root, {"recipes/é b.md": "2\n"}), "zweite", GIT_COMMITTER_DATE="2026-04-01T00:00:00+0000"
    )
    later, first = commits(root, ["recipes"])
    assert (first.about, first.on.isoformat(), first.parent) == ("erste  Fassung", "2026-03-02", None)
    assert first.at == 1_772_445_600, "by `date -u -d 2026-03-02T10:00Z +%s`"
    assert first.files == {"recipes/a.md", "recipes/é b.md"} and later.files == {"recipes/é b.md"}
    assert later.parent == git(root, "rev-parse", "HEAD~1") and later.id == git(root, "rev-parse", "HEAD")


def test_a_merge_tells_what_is_like_neither_side(tmp_path: Path) -> None:
    """In a folder below the repository's top, where git itself tells of a merge by another path than of a commit."""
    root = tmp_path / "top" / "book"
    commit(write_book(tmp_path / "top", {"book/recipes/a.md": LONG, "book/recipes/b.md": LONG}), "first")
    home = git(root, "branch", "--show-current")
    git(root, "checkout", "-qb", "side")
    commit_in(root, {"recipes/a.md": LONG.replace("line 1\n", "side\n"), "recipes/b.md": LONG + "side\n"})
    git(root, "checkout", "-q", home)
    commit_in(root, {"recipes/a.md": LONG.replace("line 28\n", "main\n")})
    git(root, "merge", "-q", "side", "-m", "both")
    merged, main, side, first = commits(root, ["recipes"])
    assert merged.files == {"recipes/a.md"} and first.files == {"recipes/a.md", "recipes/b.md"}
    assert sorted(map(sorted, (main.files, side.files))) == [
        ["recipes/a.md"],
        ["recipes/a.md", "recipes/b.md"],
    ]
    assert merged.parent == git(root, "rev-parse", "HEAD^1")


def commit_in(root: Path, files: dict[str, str]) -> None:
    write_book(root, files)
    git(root, "commit", "-qam", "a change")


def test_a_file_is_followed_to_the_names_it_had(tmp_path: Path) -> None:
    commit(write_book(tmp_path, {"recipes/a.md": LONG, "recipes/other.md": "o\n"}), "as a")
    git(tmp_path, "mv", "recipes/a.md", "recipes/b.md")
    commit(write_book(tmp_path, {"recipes/b.md": LONG + "more\n"}), "as b")
    commit(write_book(tmp_path, {"recipes/a.md": "quite another\n", "pantry.yaml": "oils: {}\n"}), "a new a")
    git(tmp_path, "mv", "recipes/b.md", "recipes/c.md")
    commit(tmp_path, "as c")
    log = commits(tmp_path, ["recipes", "pantry.yaml"])
    told = {one.about: names for one, names in followed(log, ["recipes/c.md", "recipes/a.md"])}
    assert told == {
        "as c": [("recipes/c.md", "recipes/c.md")],
        "a new a": [("recipes/a.md", "recipes/a.md")],
        "as b": [("recipes/c.md", "recipes/b.md")],
        "as a": [("recipes/c.md", "recipes/a.md")],
    }
    common = {one.about: names for one, names in followed(log, ["recipes/c.md"], ["pantry.yaml"])}
    assert common["a new a"] == [("recipes/c.md", "recipes/b.md")]


def test_no_git_no_commits(tmp_path: Path) -> None:
    assert commits(tmp_path, ["recipes"]) == []
