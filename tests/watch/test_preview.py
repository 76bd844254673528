"""The pages that are shown are those that a build writes, byte for byte, and stay when an error comes."""

from __future__ import annotations

import gc
import shutil
from datetime import date
from pathlib import Path

import pytest

from saponary.assets.store import FOLDER
from saponary.build.proof import prove
from saponary.build.site import build
from saponary.reading import stamped
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.watch.preview import Preview
from support import PLAIN, copy_book, write_book
from whole.edits import photo

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
    (root / "recipes" / "plain.md").write_text("---\ntitle: [\nsigned: {}\n---\n")
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


TWO = {
    "book.yaml": "title: Tried\ncurrency: EUR\n",
    "pantry.yaml": "oils:\n  olive:\n    price: 9.00\n",
    "recipes/plain.md": PLAIN,
    "recipes/other.md": PLAIN.replace("Plain", "Other") + "\nIt is beside [the plain one](plain.md).\n",
}
EDITS: dict[str, tuple[str, str]] = {
    "words": ("recipes/plain.md", PLAIN + "\nMore is said.\n"),
    "an address that leads nowhere": ("recipes/plain.md", PLAIN + "\nSee [it](nowhere.md).\n"),
    "a title": ("recipes/plain.md", PLAIN.replace("Plain", "Plainer")),
    "an oil": ("pantry.yaml", "oils:\n  olive:\n    saponification-value: 186.0 mg/g\n"),
    "a setting": ("book.yaml", "title: Tried again\ncurrency: EUR\nmaker: Somebody\n"),
    "a recipe more": ("recipes/third.md", PLAIN.replace("Plain", "Third")),
    "a waiver": (
        "recipes/other.md",
        PLAIN.replace("signed:", "waive: [{rule: unsigned, because: it is here to be tried}]\nsigned:"),
    ),
    "a photo": ("photos/a.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"),
}
SHOWN = ("", "recipes/plain/", "recipes/other/", "recipes/third/", "ingredients/", "costs/", "figures.json")


def test_edit_after_edit_it_is_as_one_who_looks_for_the_first_time_sees_it(tmp_path: Path) -> None:
    root = write_book(tmp_path / "book", TWO)
    preview = Preview(root, ["maker"])
    preview.look(ON)
    for number, (what, (file, text)) in enumerate(EDITS.items()):
        (root / file).parent.mkdir(exist_ok=True)
        (root / file).write_text(text)
        seen = preview.look(ON)
        copied = tmp_path / str(number) / "book"
        shutil.copytree(root, copied, ignore=shutil.ignore_patterns(".cache"))
        first = Preview(copied, ["maker"])
        assert seen.findings == first.look(ON).findings and not seen.failed, what
        assert first.page("maker/recipes/plain/") is not None
        for path in SHOWN:
            assert preview.page(f"maker/{path}") == first.page(f"maker/{path}"), (what, path)


def test_what_was_shown_is_let_go_without_being_looked_for(tmp_path: Path) -> None:
    root = write_book(tmp_path, TWO)
    preview = Preview(root)

    def shown(words: str) -> None:
        (root / "recipes" / "plain.md").write_text(f"{PLAIN}\n{words}\n")
        preview.look(ON)
        for path in ("recipes/plain/", "recipes/plain/cured.svg", "maker/recipes/plain/", "index.html"):
            assert preview.page(path) is not None

    shown("First.")
    shown("Then.")
    gc.collect()
    gc.disable()
    try:
        shown("At last.")
        assert gc.collect() == 0
    finally:
        gc.enable()


def _always(told: str, now: int) -> bool:
    return True


def test_pages_of_the_last_good_state_are_made_though_the_files_have_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """None of them was asked for before, and recipes that are known by their stamps were not read."""
    monkeypatch.setattr(stamped, "is_settled", _always)
    root = write_book(
        tmp_path, {"recipes/plain.md": PLAIN, "recipes/other.md": PLAIN.replace("Plain", "Other")}
    )
    (root / FOLDER).mkdir()
    preview = Preview(root)
    preview.look(ON)
    assert preview.page("") is not None
    preview.look(ON)
    (root / "recipes/plain.md").write_text("---\ntitle: [\nsigned: {}\n---\n")
    for _ in range(2):
        page = preview.page("recipes/plain/")
        assert page is not None
        assert b"Plain Bar" in page
        assert preview.page("maker/") is not None
        assert preview.look(ON).failed


def test_a_draft_with_errors_stops_no_other_page_and_is_shown_as_it_was(tmp_path: Path) -> None:
    """As a build leaves it out (`build/unfinished.py`); two of them in turn."""
    draft = PLAIN.replace("signed:\n  superfat: 5.0 %\n", "")
    broken = draft.replace("olive:", "oliv:")
    files = {"recipes/plain.md": PLAIN, "recipes/a.md": draft, "recipes/b.md": draft}
    root = write_book(tmp_path, files)
    preview = Preview(root, ["maker"])
    preview.look(ON)
    for a, b in ((broken, draft), (broken, broken), (draft, broken)):
        title = f"Plain {len(a)} {len(b)}"
        write_book(
            root,
            {"recipes/plain.md": PLAIN.replace("Plain Bar", title), "recipes/a.md": a, "recipes/b.md": b},
        )
        state = preview.look(ON)
        assert state.failed and not state.stopped
        assert title.encode() in (preview.page("maker/recipes/plain/") or b"")
        for slug in ("a", "b"):
            assert b"A plain bar." in (preview.page(f"maker/recipes/{slug}/") or b"")
    write_book(root, files)
    assert not preview.look(ON).failed
    (root / "recipes/b.md").unlink()
    preview.look(ON)
    assert preview.page("maker/recipes/b/") is None


def test_a_photo_that_cannot_be_used_leaves_the_pages_as_they_were(tmp_path: Path) -> None:
    """It stops a build, and is met when pages are asked for: a photo that is being copied, as a rule."""
    shown = "photo: {file: bar.jpg, day: 14, alt: A bar}\nsuperfat: 5 %\n"
    text, at = PLAIN.replace("superfat: 5 %\n", shown, 1), tmp_path / "photos/bar.jpg"
    root = write_book(tmp_path, {"recipes/plain.md": text, "photos/bar.jpg": photo((90, 120, 90))})
    preview, whole = Preview(root, ["maker"]), at.read_bytes()
    for _ in range(2):
        preview.look(ON)
        before = preview.page("maker/recipes/plain/")
        assert before is not None
        at.write_bytes(b"half of a photo")
        for _ in range(2):
            preview.look(ON)
            assert preview.page("maker/recipes/plain/") == before
            assert preview.page("maker/") is not None
            assert preview.state.stopped and preview.state.shows
        at.write_bytes(whole)
    at.write_bytes(b"half of a photo")
    first = Preview(root, ["maker"])
    first.look(ON)
    assert first.page("maker/") is None
    assert not first.state.shows
