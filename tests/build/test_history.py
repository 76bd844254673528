"""A batch poured to an earlier formula says what changed since, where git still knows."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path

import pytest

from in_git import commit
from saponary.assets.store import NoStore
from saponary.build import history
from saponary.build.history import changes_since, last_changes, sources_log
from saponary.build.proof import prove
from saponary.build.site import cut_from
from saponary.cli.main import main
from saponary.messages.message import Listed, Message, message
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import WeightUnit
from saponary.schema.edition import STANDARD
from support import PLAIN, write_book


def said(told: Mapping[str, Iterable[Message]], units: WeightUnit = "g") -> dict[str, tuple[str, ...]]:
    """As a page of a book kept in these units says it."""
    say = speaker("en", units)
    return {mark: tuple(map(say.say, changes)) for mark, changes in told.items()}


def test_what_changed_since_is_told_from_git(tmp_path: Path) -> None:
    root = write_book(tmp_path / "b", {"recipes/a.md": PLAIN})
    commit(root, "as first poured")
    first = prove(root).recipes[0].computed.fingerprint
    changed = PLAIN.replace("olive: 60 %", "olive: 59 %").replace(
        "sunflower-high-oleic: 15", "sunflower-high-oleic: 16"
    )
    changed = changed.replace("superfat: 5 %", "superfat: 6 %").replace(
        "signed:", f"batches:\n  - lot: A1\n    poured: 2026-03-02\n    formula: {first[:6]!r}\nsigned:"
    )
    write_book(root, {"recipes/a.md": changed})
    commit(root, "a point of olive less")
    proof = prove(root)
    assert "batches" in {f.rule for f in proof.findings}
    told = changes_since(proof.book, [proof.recipes[0].computed], sources_log(proof.book.root))["a"]
    assert said(told) == {
        first[:6]: (
            "olive 60.0 % to 59.0 %",
            "sunflower-high-oleic 15.0 % to 16.0 %",
            "superfat 5.0 % to 6.0 %",
        )
    }


def test_what_changed_of_an_addition_is_told_in_the_units_of_the_book(tmp_path: Path) -> None:
    with_clay = PLAIN.replace("superfat: 5 %", "additions: [{what: kaolin, amount: 8 g/kg}]\nsuperfat: 5 %")
    root = write_book(tmp_path, {"recipes/a.md": with_clay})
    commit(root, "as first poured")
    first = prove(root).recipes[0].computed.fingerprint
    changed = with_clay.replace("8 g/kg", "12 g/kg").replace(
        "signed:", f"batches: [{{lot: A1, poured: 2026-03-02, formula: {first!r}}}]\nsigned:"
    )
    write_book(root, {"recipes/a.md": changed})
    commit(root, "more clay")
    proof = prove(root)
    told = changes_since(proof.book, [proof.recipes[0].computed], sources_log(root))["a"]
    assert said(told) == {first: ("kaolin 8.0 g/kg to 12.0 g/kg of oils",)}
    assert said(told, "oz") == {first: ("kaolin 0.80 % to 1.20 % of oils",)}


def test_an_old_formula_is_that_of_its_own_settings(tmp_path: Path) -> None:
    plain = PLAIN.replace("superfat: 5 %\n", "")
    assert plain != PLAIN
    root = write_book(tmp_path / "b", {"recipes/a.md": plain, "book.yaml": "superfat: 7 %\n"})
    commit(root, "as first poured")
    first = prove(root).recipes[0].computed.fingerprint
    poured = plain.replace(
        "signed:", f"batches:\n  - lot: A1\n    poured: 2026-03-02\n    formula: '{first}'\nsigned:"
    )
    write_book(root, {"recipes/a.md": poured, "book.yaml": "superfat: 5 %\n"})
    commit(root, "less superfat for the whole book")
    write_book(root, {"pantry.yaml": "oils:\n  olive: {price: 8.40 / kg}\n"})
    commit(root, "a price")
    proof = prove(root)
    assert proof.recipes[0].computed.fingerprint != first
    told = changes_since(proof.book, [proof.recipes[0].computed], sources_log(proof.book.root))
    assert said(told["a"]) == {first: ("superfat 7.0 % to 5.0 %",)}


def test_an_old_formula_may_name_what_the_pantry_no_longer_holds(tmp_path: Path) -> None:
    own = "oils:\n  stray: {saponification-value: {value: 190 mg/g, range: [186 mg/g, 194 mg/g]}}\n"
    root = write_book(tmp_path / "b", {"recipes/a.md": PLAIN.replace("olive:", "stray:"), "pantry.yaml": own})
    commit(root, "with an oil of our own")
    first = prove(root).recipes[0].computed.fingerprint
    poured = PLAIN.replace(
        "signed:", f"batches:\n  - lot: A1\n    poured: 2026-03-02\n    formula: '{first}'\nsigned:"
    )
    (root / "pantry.yaml").unlink()
    write_book(root, {"recipes/a.md": poured})
    commit(root, "without it")
    proof = prove(root)
    found = changes_since(proof.book, [proof.recipes[0].computed], sources_log(proof.book.root))
    (told,) = said(found["a"]).values()
    assert "stray" in " ".join(told)


def test_git_is_asked_the_same_few_times_however_many_recipes_and_revisions(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lost = PLAIN.replace(
        "signed:", "batches:\n  - {lot: LOT, poured: 2026-03-02, formula: 'abcdef'}\nsigned:"
    )

    def asked(recipes: int, revisions: int) -> int:
        root = tmp_path / f"{recipes}-{revisions}"
        for n in range(revisions):
            files = {f"recipes/r{r}.md": lost.replace("LOT", f"L{r}") + f"{n}\n" for r in range(recipes)}
            commit(write_book(root, files), f"{n}")
        proof = prove(root)
        begun = list[object]()
        whole = subprocess.Popen.__init__

        def counted(self: subprocess.Popen[bytes], args: object, *rest: object, **more: object) -> None:
            begun.append(args)
            whole(self, args, *rest, **more)  # type: ignore[arg-type]

        with monkeypatch.context() as patch:
            patch.setattr(subprocess.Popen, "__init__", counted)
            found = changes_since(proof.book, [one.computed for one in proof.recipes], sources_log(root))
        assert found == {f"r{r}": {} for r in range(recipes)}
        return len(begun)

    assert asked(1, 1) == asked(3, 4) == 4


def test_when_the_sources_last_changed_is_told_from_git(tmp_path: Path) -> None:
    def by(day: str) -> None:
        commit(root, day, GIT_COMMITTER_DATE=f"{day}T12:00:00Z")

    def told() -> dict[str, tuple[str, bool]]:
        changed = last_changes(prove(root).book, sources_log(root))
        return {slug: (one.on.isoformat(), one.again) for slug, one in changed.items()}

    second = PLAIN.replace("Plain Bar", "Second Bar")
    root = write_book(tmp_path / "shelf/b", {"recipes/a.md": PLAIN, "recipes/south.md": second})
    assert told() == {}
    by("2026-03-02")
    assert told() == {"a": ("2026-03-02", False), "south": ("2026-03-02", False)}
    write_book(root, {"recipes/south.md": second + "More.\n", "notes.txt": "none of it"})
    assert told() == {"a": ("2026-03-02", False), "south": ("2026-03-02", True)}
    by("2026-04-05")
    assert told() == {"a": ("2026-03-02", False), "south": ("2026-04-05", False)}
    write_book(root, {"pantry.yaml": "oils:\n  olive: {price: 8.40 / kg}\n", "recipes/c.md": PLAIN})
    assert told() == {"a": ("2026-03-02", True), "south": ("2026-04-05", True)}
    by("2026-05-06")
    assert told() == dict.fromkeys(("a", "c", "south"), ("2026-05-06", False))
    index = root / ".git" / "index"
    before = index.stat().st_ino, index.read_bytes()
    os.utime(root / "recipes/a.md")
    told()
    assert (index.stat().st_ino, index.read_bytes()) == before, "git was asked, and only asked"
    assert main(["build", str(root)]) == 0
    page = (root / "site/recipes/a/index.html").read_text("utf-8")
    assert 'sources last changed <time datetime="2026-05-06">6\u00a0May 2026</time><' in page


def test_the_end_of_a_history_tells_no_date(tmp_path: Path) -> None:
    root = write_book(tmp_path / "b", {"recipes/a.md": PLAIN})
    commit(root, "the recipe")
    write_book(root, {"notes.txt": "and something else"})
    commit(root, "the notes")
    words = ["git", "clone", "-q", "--depth", "1", root.as_uri(), str(tmp_path / "c")]
    subprocess.run(words, check=True, capture_output=True)
    assert (
        last_changes(prove(root).book, sources_log(root))
        and last_changes(prove(tmp_path / "c").book, sources_log(tmp_path / "c")) == {}
    )


def test_without_git_nothing_is_told(tmp_path: Path) -> None:
    text = PLAIN.replace(
        "signed:", "batches:\n  - lot: A1\n    poured: 2026-03-02\n    formula: 'abcdef'\nsigned:"
    )
    proof = prove(write_book(tmp_path, {"recipes/a.md": text}))
    assert changes_since(proof.book, [proof.recipes[0].computed], sources_log(proof.book.root)) == {"a": {}}


def test_one_point_of_an_oil_takes_tested_away(tmp_path: Path) -> None:
    batch = (
        "batches:\n  - lot: A1\n    poured: 2026-03-02\n    formula: {mark}\n"
        "    free-alkali: {{test: phenolphthalein, result: none, on: 2026-04-10}}\nsigned:"
    )
    mark = prove(write_book(tmp_path / "p", {"recipes/a.md": PLAIN})).recipes[0].computed.fingerprint
    tested = PLAIN.replace("signed:", batch.format(mark=f'"{mark}"'))
    one = prove(write_book(tmp_path / "t", {"recipes/a.md": tested})).recipes[0]
    assert one.status.name == "tested" and one.status.missing is None
    moved = tested.replace("olive: 60 %", "olive: 59 %").replace("coconut: 25 %", "coconut: 26 %")
    one = prove(write_book(tmp_path / "m", {"recipes/a.md": moved})).recipes[0]
    assert one.status.name == "signed" and one.status.missing == message("badge.needs.batch")
    early = tested.replace("on: 2026-04-10", "on: 2026-03-10")
    one = prove(write_book(tmp_path / "e", {"recipes/a.md": early})).recipes[0]
    assert one.status.missing == message("badge.needs.late-test", days=28)
    stung = tested.replace("result: none", "result: present")
    one = prove(write_book(tmp_path / "s", {"recipes/a.md": stung})).recipes[0]
    assert one.status.missing == message("badge.needs.held", lots=Listed(("A1",)))


def test_a_build_asks_for_the_log_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lost = PLAIN.replace("signed:", "batches:\n  - {lot: A, poured: 2026-03-02, formula: 'abcdef'}\nsigned:")
    root = write_book(tmp_path, {"recipes/a.md": lost})
    commit(root, "first")
    proof = prove(root)
    asked = list[Path]()
    whole = history.commits
    monkeypatch.setattr(history, "commits", lambda root, names: asked.append(root) or whole(root, names))
    cut, _ = cut_from(proof, date(2026, 4, 1), NoStore(), [STANDARD["maker"]])
    assert cut.changed["a"].on and cut.versions["a"] and len(asked) == 1
