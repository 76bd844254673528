"""The manual's folder and the schemas of a book hold what the program wrote; what is a maker's in them stays."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.listed import InTheWay, lay
from saponary.cli.main import main
from support import PLAIN, write_book

FILES = {"index.html": b"first", "keys/oils.html": b"keys"}


def laid(folder: Path, files: dict[str, bytes]) -> None:
    lay(folder, folder / ".list", files, alone=True)


def test_what_is_a_maker_s_stays(tmp_path: Path) -> None:
    folder, mine = tmp_path / "manual", tmp_path / "mine"
    mine.write_text("mine")
    laid(folder, FILES)
    (folder / "CNAME").write_text("soap.example")
    laid(folder, {"index.html": b"second"})
    assert (folder / "CNAME").read_text() == "soap.example" and not (folder / "keys").exists()
    (folder / "index.html").write_text("changed by hand")
    with pytest.raises(InTheWay):
        laid(folder, FILES)
    assert (folder / "index.html").read_text() == "changed by hand"
    (folder / "index.html").unlink()
    (folder / "index.html").symlink_to(mine)
    with pytest.raises(InTheWay):
        laid(folder, FILES)
    assert mine.read_text() == "mine"


def test_no_link_is_followed(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "manual").symlink_to(tmp_path / "far")
    with pytest.raises(InTheWay):
        laid(tmp_path / "manual", FILES)
    (tmp_path / "other").mkdir()
    (tmp_path / "other/keys").symlink_to(tmp_path / "far")
    with pytest.raises(InTheWay):
        laid(tmp_path / "other", FILES)
    assert not list((tmp_path / "far").iterdir())


def test_what_was_stopped_is_finished(tmp_path: Path) -> None:
    """Stopped before its list is final, the next takes none of its files for somebody else's."""
    folder = tmp_path / "manual"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("saponary.build.write_site.flush_all", lambda paths: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            laid(folder, FILES)
    laid(folder, {**FILES, "index.html": b"second"})
    assert {p.read_bytes() for p in folder.rglob("*.html")} == {b"second", b"keys"}


@pytest.mark.parametrize("what", ["file", "link", "other"])
def test_schemas_are_not_written_over_anything(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root, far = write_book(tmp_path / "book", {"recipes/a.md": PLAIN}), tmp_path / "far"
    place = root / ".schema"
    far.mkdir()
    if what == "file":
        place.write_text("mine")
    elif what == "link":
        place.symlink_to(far)
    else:
        place.mkdir()
        (place / "recipe.json").write_text("mine")
    for words in (["schema", "--for", str(root)], ["new", "evening-bar", "--book", str(root)]):
        status = main(words)
        said = capsys.readouterr()
        assert "Traceback" not in said.err and ".schema" in said.err, said
        assert status == (2 if words[0] == "schema" else 0)
    assert (root / "recipes/evening-bar.md").is_file()
    assert (
        not list(far.iterdir()) and (place / "recipe.json").read_text() == "mine" if what == "other" else True
    )
    if what == "file":
        assert place.read_text() == "mine"


def test_a_list_that_was_being_written_is_nobody_elses(tmp_path: Path) -> None:
    """Killed while the list itself was written, the next begins anew and leaves no part of it."""
    folder = tmp_path / "manual"
    (folder / "keys").mkdir(parents=True)
    for part in (folder / "..list.abcd1234.part", folder / "keys/.oils.html.abcd1234.part"):
        part.write_bytes(b"ha")
    laid(folder, FILES)
    found = {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    assert found == {".list", *FILES}
