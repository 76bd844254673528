"""`pour` adds a record to a recipe file and loses not a byte of it."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from saponary.build.batch_record import next_lot
from saponary.build.proof import prove
from saponary.cli.main import main
from support import BOOKS, PLAIN, copy_book, prove_one, some, write_book


def added(before: bytes, after: bytes) -> bytes:
    """What was set in, provided that all else is as it was."""
    start = next((i for i, (a, b) in enumerate(zip(before, after, strict=False)) if a != b), len(before))
    more = len(after) - len(before)
    for at in range(start, -1, -1):
        if before[:at] + after[at : at + more] + before[at:] == after:
            return after[at : at + more]
    raise AssertionError("something else was changed")


@pytest.mark.slow
@pytest.mark.parametrize("name", BOOKS)
def test_every_recipe_of_both_books_takes_a_record(name: str, tmp_path: Path) -> None:
    root = copy_book(name, tmp_path / "book")
    for path in sorted((root / "recipes").iterdir()):
        before = path.read_bytes()
        assert main(["record", path.stem, "--book", str(root), "--on", "2026-11-01"]) == 0
        block = added(before, path.read_bytes()).decode()
        assert "poured: 2026-11-01" in block and "as-weighed:" in block
        assert main(["record", path.stem, "--book", str(root), "--on", "2026-11-02"]) == 0
    for one in some(prove(root).recipes):
        batches = one.computed.model.batches
        assert [b.poured for b in batches[-2:]] == [date(2026, 11, 1), date(2026, 11, 2)]
        assert all(b.formula == one.computed.fingerprint for b in batches[-2:])
        assert len({b.lot for b in batches}) == len(batches)


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_comments_and_line_ends_survive(newline: str, tmp_path: Path) -> None:
    text = PLAIN.replace(
        "signed:\n",
        "batches:   # the lots\n    - lot: A-09\n      poured: 2026-01-01   # a cold day\n\n# what I sign\nsigned:\n",
    ).replace("\n", newline)
    root = write_book(tmp_path, {"recipes/a.md": text})
    assert (
        main(["record", "a", "--book", str(root), "--on", "2026-11-01", "--by", 'Wen "W" O\'Hara: potter'])
        == 0
    )
    after = (root / "recipes/a.md").read_bytes()
    block = added(text.encode(), after).decode()
    assert block.startswith(f"    - lot: A-10{newline}      poured: 2026-11-01{newline}")
    assert (newline == "\n") == (b"\r" not in after)
    assert prove(root).recipes[0].computed.model.batches[1].by == 'Wen "W" O\'Hara: potter'


def test_a_maker_with_many_keeps_batches_in_their_own_file(tmp_path: Path) -> None:
    root = write_book(
        tmp_path,
        {"recipes/a.md": PLAIN, "batches/a.yaml": "# lots\nbatches:\n- lot: B7\n  poured: 2026-01-01\n"},
    )
    assert main(["record", "a", "--book", str(root), "--on", "2026-11-01"]) == 0
    assert (root / "recipes/a.md").read_text() == PLAIN
    records = prove(root).recipes[0].computed.batches
    assert [(r.batch.lot, r.file) for r in records] == [("B7", "batches/a.yaml"), ("B8", "batches/a.yaml")]


def test_what_cannot_be_set_in_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    flow = PLAIN.replace("signed:\n", "batches: [{lot: A1, poured: 2026-01-01}]\nsigned:\n")
    root = write_book(
        tmp_path, {"recipes/a.md": flow, "recipes/b.md": PLAIN.replace("olive: 60", "olive: 61")}
    )
    assert main(["record", "a", "--book", str(root)]) == 2
    assert "brackets" in capsys.readouterr().err
    assert main(["record", "b", "--book", str(root)]) == 2
    assert main(["record", "a", "--lot", "A1", "--book", str(root)]) == 2
    assert "recorded already" in capsys.readouterr().err
    assert main(["record", "a", "--on", "yesterday", "--book", str(root)]) == 2
    assert (root / "recipes/a.md").read_text() == flow


@pytest.mark.parametrize(
    ("lots", "then"),
    [([], "PB-001"), (["QS-014", "QS-009"], "QS-015"), (["99"], "100"), (["spring"], "PB-001")],
)
def test_the_next_lot(lots: list[str], then: str) -> None:
    rows = "".join(f'  - {{lot: "{lot}", poured: 2026-01-01}}\n' for lot in lots)
    text = PLAIN.replace("signed:\n", f"batches:\n{rows}signed:\n") if lots else PLAIN
    assert next_lot(prove_one(text).recipes[0]) == then


def test_an_ounce_book_has_its_weights_in_ounces_and_one_line_for_all_that_is_not_filled_in(
    tmp_path: Path,
) -> None:
    settings = "units: oz\nscale-step: 0.01 oz\n"
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "book.yaml": settings})
    assert main(["record", "a", "--book", str(root), "--on", "2026-03-02"]) == 0
    text = (root / "recipes/a.md").read_text()
    # 1000 g of oils in ounces of 28.349523125 g: 60, 25 and 15 %.
    for name, ounces in (("olive", "21.16"), ("coconut", "8.82"), ("sunflower-high-oleic", "5.29")):
        assert re.search(rf"^      {name}: +# {ounces} oz$", text, re.MULTILINE), text
    (finding,) = [f for f in prove(root).findings if f.rule == "schema"]
    assert finding.message == "5 of 5 weights of this batch are not filled in"
    assert text.splitlines()[finding.place.line - 1].strip().startswith("as-weighed:")


def test_no_two_recipes_share_a_lot(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = PLAIN.replace("Plain Bar", "Pale Bar")
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "recipes/b.md": other})
    for name, words in (("a", []), ("b", []), ("a", ["--lot", "PB-002"])):
        code = main(["record", name, "--book", str(root), "--on", "2026-03-02", *words])
        assert code == (2 if words else 0)
    assert "PB-002" in capsys.readouterr().err
    assert "lot: PB-001" in (root / "recipes/a.md").read_text()
    text = (root / "recipes/b.md").read_text()
    assert "lot: PB-002" in text
    (root / "recipes/b.md").write_text(text.replace("PB-002", "PB-001"))
    (finding,) = [f for f in prove(root).findings if f.severity == "error"]
    assert (finding.rule, finding.place.file) == ("lots", "recipes/b.md") and "'a'" in finding.message


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_a_record_has_the_line_ends_of_its_file(ends: str, tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN.replace("\n", ends)})
    for lot in ("PB-001", "PB-002"):
        assert main(["record", "a", "--book", str(root), "--on", "2026-03-02"]) == 0
        after = (root / "recipes/a.md").read_bytes().decode()
        assert f"lot: {lot}" in after
        assert not set("\r\n") & set(after.replace(ends, ""))
    assert [r.batch.lot for r in prove(root).recipes[0].computed.batches] == ["PB-001", "PB-002"]


def test_what_comes_later_stands_as_comments_that_read_clean(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    assert main(["record", "a", "--book", str(root), "--on", "2026-03-02"]) == 0
    path = root / "recipes/a.md"
    text = path.read_text()
    assert "# weighed: {0: 130 g, 28: 117 g}" in text and "on: 2026-03-30}" in text
    path.write_text(re.sub(r"# (weighed|free-alkali):", r"\1:", text))
    batch = prove(root).recipes[0].computed.model.batches[-1]
    assert sorted(batch.weighed) == [0, 28] and batch.free_alkali


def test_a_new_record_stands_behind_the_comments_of_the_one_before(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    for day in ("2026-03-02", "2026-03-03"):
        assert main(["record", "a", "--book", str(root), "--on", day]) == 0
    lines = [line.split(":")[0] for line in (root / "recipes/a.md").read_text().splitlines()]
    first, second = (i for i, line in enumerate(lines) if line.strip().startswith("- lot"))
    comments = [i for i, line in enumerate(lines) if line.strip() == "# free-alkali"]
    assert first < comments[0] < second < comments[1]
