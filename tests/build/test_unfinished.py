"""A recipe that nobody has signed keeps no other page back, whatever is wrong with it; a signed one does."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.build.unfinished import without_unfinished
from saponary.cli.main import main
from support import PLAIN, write_book

SECOND = PLAIN.replace("Plain Bar", "Second Bar")
UNSIGNED = SECOND.replace("signed:\n  superfat: 5.0 %\n", "")
BROKEN = {
    "an oil nobody knows": ("olive: 60 %", "oliv: 60 %"),
    "a key nobody knows": ("superfat: 5 %", "superfat: 5 %\nsuperfatt: 4 %"),
    "a figure that is not so": ("A plain bar.", "The lye is {lye = 1 g}."),
    "two versions of it": ("A plain bar.", "<<<<<<< HEAD\nA bar.\n=======\nNo bar.\n>>>>>>> theirs"),
    "no yaml": ("water: {lye", "water: {{lye"),
}


@pytest.mark.parametrize("how", sorted(BROKEN))
def test_its_errors_stop_nothing_and_those_of_a_signed_one_do(how: str, tmp_path: Path) -> None:
    for text, stops in ((UNSIGNED, False), (SECOND, True)):
        files = {"recipes/plain.md": PLAIN, "recipes/second.md": text.replace(*BROKEN[how])}
        proof = prove(write_book(tmp_path / str(stops), files))
        sound, left = without_unfinished(proof)
        assert proof.failed and sound.failed == stops
        assert list(left) == ([] if stops else ["recipes/second.md"])
        if not stops:
            assert [one.slug for one in sound.recipes] == ["plain"] and all(left.values())


@pytest.mark.parametrize("encoding", ["utf-16", "latin-1"])
def test_one_that_cannot_be_read_is_signed_where_its_letters_say_so(encoding: str, tmp_path: Path) -> None:
    for text, stops in ((UNSIGNED, False), (SECOND, True)):
        root = write_book(tmp_path / str(stops), {"recipes/plain.md": PLAIN, "recipes/second.md": ""})
        (root / "recipes/second.md").write_bytes(text.replace("A plain", "\u00c4 plain").encode(encoding))
        assert without_unfinished(prove(root))[0].failed == stops


@pytest.mark.slow
@pytest.mark.parametrize("how", ["a figure that is not so", "no yaml"])
def test_an_unsigned_recipe_with_errors_is_left_out_and_told(
    how: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old, new = BROKEN[how]
    root = write_book(
        tmp_path / "b", {"recipes/plain.md": PLAIN, "recipes/second.md": UNSIGNED.replace(old, new)}
    )
    assert main(["build", str(root), "--edition", "public", "--edition", "maker"]) == 0
    said = capsys.readouterr().out
    assert "recipes/second.md:" in said and " error [" in said
    assert "left out, not signed and not sound yet: recipes/second.md (" in said
    for folder in ("site", "private/maker"):
        assert (root / folder / "recipes/plain/index.html").is_file()
        assert not (root / folder / "recipes/second").exists()


@pytest.mark.slow
def test_a_sound_draft_is_in_the_makers_edition_alone_and_marked(tmp_path: Path) -> None:
    root = write_book(tmp_path / "b", {"recipes/plain.md": PLAIN, "recipes/second.md": UNSIGNED})
    assert main(["build", str(root), "--edition", "public", "--edition", "maker"]) == 0
    assert not (root / "site/recipes/second").exists()
    index = (root / "private/maker/index.html").read_text("utf-8")
    assert "recipes/second/index.html" in index and '<span class="status draft">Draft</span>' in index
    assert 'class="verdict draft' in (root / "private/maker/recipes/second/index.html").read_text("utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("how", ["an oil nobody knows", "a figure that is not so"])
def test_a_signed_recipe_with_errors_stops_the_build(
    how: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write_book(
        tmp_path / "b", {"recipes/plain.md": PLAIN, "recipes/second.md": SECOND.replace(*BROKEN[how])}
    )
    assert main(["build", str(root)]) == 1
    assert "nothing was written" in capsys.readouterr().err and not (root / "site").exists()
    (root / "recipes/second.md").write_text(UNSIGNED.replace(*BROKEN[how]), "utf-8")
    assert main(["proof", str(root)]) == 1 and main(["build", str(root), "--strict"]) == 1
