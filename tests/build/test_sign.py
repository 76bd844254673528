"""Sign changes digits and nothing else, whatever the file looks like."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build import sign
from saponary.cli.main import main
from saponary.reading.findings import errors
from saponary.reading.text_edits import apply
from support import PLAIN, copy_book, prove_one, write_book

AWKWARD = (
    "\ufeff---\r\n"
    "# Größe stimmt – «so» hat es die Großmutter gewogen\r\n"
    "title:   'Käse & Öl'   # not cheese\r\n"
    "oils:\r\n"
    "     total:    1000 g\r\n"
    "     parts: {olive: 60 %,\r\n"
    '             "coconut": 25 %, sunflower-high-oleic: 15 %}\r\n'
    "superfat: 5 %\r\n"
    "water: {lye-strength: 33 %}\r\n"
    "summary: >-\r\n"
    "   Takes {lye = 1.0 g} of lye\r\n"
    "   and {water = 9.99 oz} of water. \U0001f9fc\r\n"
    "signed:   # signed\r\n"
    "        lye:   '1.00 g'   # a line comment\r\n"
    '        water: "2 g"\r\n'
    "        superfat:\t5.000 %\r\n"
    "---\r\n"
    "Ünïcödé {lye = 0.1 lb} and `{lye = 1 g}` stays; \\{lye = 1 g} too.\r\n"
    "\r\n"
    "```\r\n{lye = 2 g}\r\n```\r\n"
    "Last line without an end {oil olive = 1 g}"
)


def test_only_digits_change() -> None:
    one = prove_one(AWKWARD).recipes[0]
    edits = sign.edits(one.computed)
    new = apply(AWKWARD, edits)
    assert errors(prove_one(new).findings) == []
    assert _without_digits(new) == _without_digits(AWKWARD)
    assert "`{lye = 1 g}` stays; \\{lye = 1 g} too" in new
    assert "```\r\n{lye = 2 g}\r\n```" in new
    assert new.count("\r\n") == AWKWARD.count("\r\n")
    assert "'139.82 g'" in new and "superfat:\t5.000 %" in new


def _without_digits(text: str) -> str:
    return "".join(c for c in text if c not in "0123456789.")


def test_signing_twice_changes_nothing() -> None:
    once = apply(AWKWARD, sign.edits(prove_one(AWKWARD).recipes[0].computed))
    assert sign.edits(prove_one(once).recipes[0].computed) == []


@pytest.mark.parametrize("name", ["starters", pytest.param("demo", marks=pytest.mark.slow)])
def test_a_changed_superfat_is_settled_by_sign(name: str, tmp_path: Path) -> None:
    """Every recipe of both books: raise the superfat, sign, and the book proofs clean again."""
    root = copy_book(name, tmp_path / "book")
    changed = {}
    for path in sorted((root / "recipes").iterdir()):
        text = path.read_bytes()
        changed[path] = text.replace(b"superfat: 5 %\n", b"superfat: 6 %\n", 1)
        path.write_bytes(changed[path])
    assert main(["proof", str(root)]) == 1
    assert main(["sign", "--book", str(root)]) == 0
    assert main(["proof", str(root)]) == 0
    strip = {ord(c): None for c in "0123456789.abcdef"}
    for path, before in changed.items():
        assert path.read_bytes().decode().translate(strip) == before.decode().translate(strip), path


def test_signing_a_draft_states_its_figures(tmp_path: Path) -> None:
    draft = PLAIN.replace("signed:\n  superfat: 5.0 %\n", "")
    root = write_book(tmp_path / "b", {"recipes/plain.md": draft.replace("\n", "\r\n")})
    assert main(["sign", "plain", "--book", str(root)]) == 0
    text = (root / "recipes/plain.md").read_bytes().decode()
    assert "signed:\r\n  lye: 139.8 g\r\n  water: 283.9 g\r\n  superfat: 5.0 %\r\n  formula: " in text
    assert "\n" not in text.replace("\r\n", "")
    proof = prove_one(text)
    assert proof.findings == () and proof.recipes[0].status.name == "signed"


def test_signing_adds_what_a_statement_lacks() -> None:
    one = prove_one(PLAIN).recipes[0]
    new = apply(PLAIN, sign.signing(one.computed))
    assert "signed:\n  superfat: 5.0 %\n  lye: 139.8 g\n  water: 283.9 g\n  formula: " in new
    assert errors(prove_one(new).findings) == []


def test_a_path_means_that_file_and_no_other_of_its_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stale = PLAIN.replace("superfat: 5.0 %", "superfat: 6.0 %")
    lesson = "---\ntitle: A day\nstudents: 4\noils: 500 g\nrecipes: [a]\n---\n{superfat = 9 %}\n"
    root = write_book(tmp_path, {"recipes/a.md": stale, "classes/a.md": lesson})
    assert main(["sign", str(root / "classes/a.md")]) == 0
    assert (root / "recipes/a.md").read_text() == stale
    assert "{superfat = 5 %}" in (root / "classes/a.md").read_text()
    assert main(["record", str(root / "classes/a.md")]) == 2
    assert "no recipe" in capsys.readouterr().err
    assert main(["sign", str(root / "recipes/a.md")]) == 0
    signed = (root / "recipes/a.md").read_text()
    assert "  superfat: 5.0 %\n  lye: 139.8 g\n" in signed and "formula: " in signed


def test_a_lesson_is_signed_and_keeps_the_rest(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lesson = (
        "---\r\n# for the spring\r\ntitle:  'Ä day'\r\nstudents: 4\r\noils: 500 g\r\nrecipes: [a]\r\n---\r\n"
        "All the oils, {oils = 1.0 kg}, and `{oils = 1 g}`.\r\n<!-- as last year -->\r\nSuperfat {superfat=9%}"
    )
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "classes/day.md": lesson})
    assert main(["proof", str(root)]) == 1
    assert main(["sign", "dya", "--book", str(root)]) == 2
    assert "no recipe or class 'dya'" in (said := capsys.readouterr().err) and "'day'" in said
    assert main(["sign", "a", "--book", str(root)]) == 0
    assert (root / "classes/day.md").read_bytes().decode() == lesson
    assert main(["sign", "day", "--book", str(root), "--dry-run"]) == 0
    assert (root / "classes/day.md").read_bytes().decode() == lesson
    assert main(["sign", "--book", str(root)]) == 0
    assert capsys.readouterr().out.endswith("0 recipes and 1 class signed\n")
    new = (root / "classes/day.md").read_bytes().decode()
    assert new == lesson.replace("{oils = 1.0 kg}", "{oils = 0.5 kg}").replace(
        "{superfat=9%}", "{superfat=5%}"
    )


SPELT = [
    "|\n    150.0 g",
    "|-\n    150.0 g",
    ">-\n    150.0 g",
    "|2\n    150.0 g",
    '"\\x31\\x350.0 g"',
    '"\\x20150.0 g"',
    '"\\u0031\\u0034\\u0036.5 g"',
    '"1\\\n    50.0 g"',
    "'150.0 g'   # a comment",
    "150.0 g",
]


@pytest.mark.parametrize("spelt", SPELT)
@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_what_cannot_be_put_in_place_is_left_and_said(
    spelt: str, ends: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = PLAIN.replace("  superfat: 5.0 %\n", f"  lye: {spelt}\n  superfat: 5.0 %\n").replace("\n", ends)
    root = write_book(tmp_path, {"recipes/a.md": text})
    code = main(["sign", "--book", str(root)])
    after = (root / "recipes/a.md").read_bytes().decode()
    if code == 0:
        assert after != text and main(["proof", str(root)]) == 0
        assert _without_digits(after) == _without_digits(text)
    else:
        assert after == text and "cannot be put in place" in capsys.readouterr().err
    if "\\" not in spelt:
        assert code == 0


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_a_draft_is_signed_in_its_own_line_ends(ends: str, tmp_path: Path) -> None:
    text = PLAIN.replace("  superfat: 5.0 %\n", "  superfat: 5.0 %\n").replace("\n", ends)
    root = write_book(tmp_path, {"recipes/a.md": text})
    assert main(["sign", "--drafts", "--book", str(root)]) == 0
    after = (root / "recipes/a.md").read_bytes().decode()
    assert "formula:" in after and main(["proof", str(root), "--strict"]) == 0
    assert after.replace(ends, "").count("\n") + after.replace(ends, "").count("\r") == 0


def test_without_a_name_a_draft_stays_a_draft(tmp_path: Path) -> None:
    draft = PLAIN.replace("signed:\n  superfat: 5.0 %\n", "")
    root = write_book(tmp_path, {"recipes/a.md": draft})
    assert main(["sign", "--book", str(root)]) == 0
    assert (root / "recipes/a.md").read_text() == draft


def test_old_names_are_told_the_new_ones(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    old = PLAIN.replace(
        "signed:", "editions: [open, bench]\npour:\n  - top: {shape: flat, strewn: salt}\nstated:"
    )
    lesson = "---\ntitle: A day\nstudents: 4\nbench: 2\noils: 500 g\nrecipes: [b]\n---\n"
    kept = PLAIN.replace("signed:", "editions: [open, bench]\nsigned:")
    files = {"recipes/a.md": old, "recipes/b.md": kept, "classes/c.md": lesson}
    assert main(["proof", str(write_book(tmp_path, files))]) == 1
    said = capsys.readouterr().out
    for new in ("signed", "sprinkle", "per-bench", "public", "maker"):
        assert f"it is called {new!r} now" in said, new
    for command, new in (("restate", "sign"), ("pour", "record")):
        assert main([command, "a", "--book", str(tmp_path)]) == 2
        assert f"`{command}` is called `{new}` now" in capsys.readouterr().err
