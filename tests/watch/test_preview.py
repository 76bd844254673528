"""The pages that are shown are those that a build writes, byte for byte, and stay when an error comes."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.build.site import build
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.watch.preview import Preview
from support import PLAIN, copy_book, write_book

ON = date(2026, 3, 2)


def below(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.mark.slow
@pytest.mark.parametrize("book", ["demo", "starters"])
def test_every_file_is_what_a_build_writes(book: str, tmp_path: Path) -> None:
    root = copy_book(book, tmp_path / "book")
    build(prove(root), ON, [STANDARD[PUBLIC], STANDARD["maker"]])
    preview = Preview(root)
    preview.look(ON)
    for folder, at in ((root / "site", ""), (root / "private" / "maker", "maker/")):
        written = below(folder)
        assert len(written) > 20
        for path, data in written.items():
            assert preview.page(f"{at}{path}") == data, path


def test_what_is_mended_is_shown_and_what_is_deleted_is_gone(tmp_path: Path) -> None:
    root = write_book(
        tmp_path, {"recipes/plain.md": PLAIN, "recipes/other.md": PLAIN.replace("Plain", "Other")}
    )
    preview = Preview(root)
    assert not preview.look(ON).failed
    assert preview.page("recipes/other/") is not None
    (root / "recipes" / "other.md").unlink()
    (root / "recipes" / "plain.md").write_text("---\ntitle: [\n---\n")
    state = preview.look(ON)
    assert state.failed
    assert state.shows
    assert preview.page("recipes/other/") is not None
    (root / "recipes" / "plain.md").write_text(PLAIN)
    assert not preview.look(ON).failed
    assert preview.page("recipes/other/") is None
    assert preview.page("recipes/plain/") is not None


def test_a_book_that_is_gone_is_a_finding_and_may_come_back(tmp_path: Path) -> None:
    root = write_book(tmp_path / "book", {"recipes/plain.md": PLAIN})
    preview = Preview(root)
    preview.look(ON)
    root.rename(tmp_path / "away")
    state = preview.look(ON)
    assert state.failed
    assert "no book here any more" in state.findings[0].message
    (tmp_path / "away").rename(root)
    assert not preview.look(ON).failed


def test_a_template_that_fails_is_a_finding(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/plain.md": PLAIN, "templates/recipe.html": "{{ nothing.at.all }}"})
    preview = Preview(root)
    preview.look(ON)
    assert preview.page("recipes/plain/") is None
    assert [str(f.place) for f in preview.state.findings if f.severity == "error"] == [
        "templates/recipe.html:1:1"
    ]
    assert preview.state.number == 2
    shutil.rmtree(root / "templates")
    assert not preview.look(ON).failed


def test_nothing_of_the_book_is_written(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/plain.md": PLAIN})
    preview = Preview(root)
    preview.look(ON)
    preview.page("")
    assert sorted(path.name for path in root.iterdir()) == [".cache", "recipes"]
