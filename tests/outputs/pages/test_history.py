"""The versions of a formula on its page, from a book kept in git: who sees them, and what they say."""

from __future__ import annotations

import html
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import feedparser
import pytest

from composed import composed
from in_git import commit
from saponary.assets.store import NoStore
from saponary.book.library import read_book
from saponary.build.history import sources_log
from saponary.build.proof import Proof, prove
from saponary.build.versions import versions
from saponary.reading.files import Folder
from saponary.schema.edition import STANDARD, Edition, editions
from saponary.views.for_edition import Unpublished, for_edition
from support import BOOKS, PLAIN, copy_book, write_book

FEED = "changes/feed.xml"
PAGE, CHANGES, RECIPE = "recipes/a/history.html", "changes/index.html", "recipes/a/index.html"


@pytest.fixture(scope="module")
def proof(tmp_path_factory: pytest.TempPathFactory) -> Proof:
    """Two versions of one recipe, the first with a lot; a note in between moves nothing."""
    root = write_book(tmp_path_factory.mktemp("book"), {"recipes/a.md": PLAIN})
    commit(root, "as first made")
    mark = prove(root).recipes[0].computed.fingerprint
    lots = f"batches: [{{lot: A1, poured: 2026-01-02, formula: '{mark}'}}]\nsigned:"
    write_book(root, {"recipes/a.md": PLAIN.replace("signed:", lots)})
    commit(root, "a batch")
    milder = (
        PLAIN.replace("signed:", lots).replace("superfat: 5 %", "superfat: 6 %").replace("5.0 %", "6.0 %")
    )
    write_book(root, {"recipes/a.md": milder})
    commit(root, "milder <b>for</b> winter")
    return prove(root)


def site(proof: Proof, edition: Edition) -> Mapping[str, str]:
    whole = Unpublished(
        proof.book,
        proof.recipes,
        "e",
        "t",
        versions=versions(proof.book, NoStore(), sources_log(proof.book.root)),
        on=date.max,
    )
    made = composed(for_edition(whole, edition))
    return {path: made[path].decode() for path in (PAGE, CHANGES, RECIPE, FEED) if path in made}


def test_each_version_has_its_lots_and_what_it_moved(proof: Proof) -> None:
    page = site(proof, STANDARD["maker"])[PAGE]
    assert page.count("<section") == 3, "two versions, and the cautions"
    later, first = page.split("<section")[1:3]
    assert "milder &lt;b&gt;for&lt;/b&gt; winter" in later and "Lot A1" not in later
    assert re.search(r"superfat</th><td[^>]*>5.0\s%</td><td[^>]*>6.0\s%</td><td[^>]*>\+1.0 points", later)
    assert "Lot A1 was made to it" in first and "The first version" in first
    now = f"{proof.recipes[0].computed.catalogue['lye'].value / 10:.2f} %"
    assert f"2 versions: lye from 13.98 % to {now} of the oils" in page


def test_the_book_tells_what_changed(proof: Proof) -> None:
    page = site(proof, STANDARD["maker"])[CHANGES]
    assert page.index("milder") < page.index("as first made")
    assert '<a href="../recipes/a/history.html">Plain Bar</a>' in page


def test_who_may_see_it(proof: Proof) -> None:
    for edition in ("public", "shop"):
        assert site(proof, STANDARD[edition]).keys() == {RECIPE}
        assert "history.html" not in site(proof, STANDARD[edition])[RECIPE]
    assert 'href="../../recipes/a/history.html"' in site(proof, STANDARD["maker"])[RECIPE]
    taught = site(proof, STANDARD["class"])
    assert taught.keys() >= {PAGE, CHANGES} and "milder" not in taught[PAGE], (
        "what was said stays with the maker"
    )


def test_the_manuals_lines_give_the_public_its_history(proof: Proof) -> None:
    """What `saponary manual git` says to write: the standard public edition, and its history beside."""
    topic = files("saponary.tables.manual").joinpath("85-git.md").read_text(encoding="utf-8")
    (lines,) = re.findall(r"^```text\n# book\.yaml\n(.*?)^```$", topic, re.MULTILINE | re.DOTALL)
    with TemporaryDirectory() as folder:
        given = read_book(Folder(write_book(Path(folder), {"book.yaml": lines, "recipes/a.md": PLAIN})))
    assert not [one for one in given.findings if one.severity == "error"]
    public = editions(given.settings.editions)["public"]
    standard = STANDARD["public"]
    assert public == replace(standard, shows=standard.shows | {"history"})
    made = site(proof, public)
    assert made.keys() == {PAGE, CHANGES, RECIPE, FEED}
    assert "milder" not in "".join(made.values()), "what was said of a change stays with the maker"


def test_without_git_there_is_none(tmp_path: Path) -> None:
    assert versions(prove(write_book(tmp_path, {"recipes/a.md": PLAIN})).book, NoStore(), []) == {}


def test_what_changed_is_a_feed(proof: Proof) -> None:
    """By a reader of others; without an address its links lead from where it lies."""
    base = "https://soap.example/book"
    settings = proof.book.settings.model_copy(update={"base_url": base})
    placed = replace(proof, book=replace(proof.book, settings=settings))
    for one, home in ((proof, "../"), (placed, f"{base}/maker/")):
        made = feedparser.parse(site(one, STANDARD["maker"])[FEED])
        assert not made.bozo and made.version == "atom10" and made.feed.link == f"{home}changes/index.html"
        later, first = made.entries
        assert later.link == f"{home}{PAGE}" and later.id != first.id
        assert "milder <b>for</b> winter; lye 139.8 g to " in html.unescape(later.summary)
        assert first.summary.endswith("The first version in the history.")
    assert "feed.xml" in site(proof, STANDARD["maker"])[CHANGES]
    assert FEED not in site(proof, STANDARD["public"])
    assert "milder" not in site(proof, STANDARD["class"])[FEED], "what was said of it stays with the maker"


def test_soap_that_is_melted_again_has_versions_and_no_lye(tmp_path: Path) -> None:
    text = (BOOKS["starters"] / "recipes/second-melt.md").read_text(encoding="utf-8")
    assert text.count("amount: 600 g") == 1
    root = copy_book("starters", tmp_path)
    commit(root, "first")
    write_book(root, {"recipes/second-melt.md": text.replace("amount: 600 g", "amount: 500 g")})
    commit(root, "less")
    found = versions(read_book(Folder(root)), NoStore(), sources_log(root))["second-melt"]
    assert [(one.about, one.lye, one.superfat) for one in found] == [
        ("less", None, None),
        ("first", None, None),
    ]
    (row,) = [row for row in found[0].moved if row.name == "grated-soap"]
    assert row.was is not None and row.now is not None and row.by is not None
    assert (row.was.text(), row.now.text(), row.by.text()) == ("600.0 g", "500.0 g", "-100.0 g")


def test_weights_are_told_in_the_units_that_the_book_is_kept_in_now(tmp_path: Path) -> None:
    """A change of units alone moves no figure. 28.349523125 g an ounce (NIST SP 811, appendix B.8)."""
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    commit(root, "first")
    write_book(
        root, {"recipes/a.md": PLAIN.replace("superfat: 5 %", "superfat: 6 %").replace("5.0 %", "6.0 %")}
    )
    commit(root, "milder")
    write_book(root, {"book.yaml": "units: oz\n"})
    commit(root, "in ounces")
    proof = prove(root)
    assert [one.about for one in versions(proof.book, NoStore(), sources_log(root))["a"]] == [
        "milder",
        "first",
    ]
    made = site(proof, STANDARD["maker"])
    before, now = (139.824 / 28.349523125, proof.recipes[0].computed.catalogue["lye"].value / 28.349523125)
    row = rf"lye</th><td[^>]*>{before:.2f}\soz</td><td[^>]*>{now:.2f}\soz</td><td[^>]*>\u2212{before - now:.3f}\soz<"
    assert re.search(row, made[PAGE]) and re.search(row, made[CHANGES])
    assert f"lye {before:.2f} oz to {now:.2f} oz" in made[FEED]
    assert not re.search(r"\d g\b", made[PAGE] + made[CHANGES] + made[FEED])


def test_what_students_are_to_work_out_is_in_no_version_that_they_see(tmp_path: Path) -> None:
    """The recipe's own notes leave its lye blank."""
    asking = PLAIN.replace("A plain bar.", "It takes {blank lye}.")
    assert asking != PLAIN
    commit(write_book(tmp_path, {"recipes/a.md": asking}), "first")
    proof = prove(tmp_path)
    assert site(proof, STANDARD["class"]).keys() == {RECIPE}
    assert site(proof, STANDARD["maker"]).keys() >= {PAGE, CHANGES, FEED}


def test_programs_find_the_feed(proof: Proof) -> None:
    made = site(proof, STANDARD["maker"])
    for path, home in ((PAGE, "../../changes/feed.xml"), (CHANGES, "feed.xml")):
        told = re.findall(r'<link rel="alternate" type="application/atom\+xml" href="([^"]*)"', made[path])
        assert told == [home]
        assert re.search(r'<time datetime="\d{4}-\d\d-\d\d">', made[path])


def test_what_came_with_one_commit_stands_together(tmp_path: Path) -> None:
    texts = {f"recipes/{slug}.md": PLAIN.replace("Plain Bar", slug.upper()) for slug in "abc"}
    commit(write_book(tmp_path, texts), "a new book")
    page = site(prove(tmp_path), STANDARD["maker"])[CHANGES]
    (told,) = re.findall(r"First in the history, 3 recipes:(.*?)</p>", page, flags=re.DOTALL)
    assert re.findall(r">(\w)</a>", told) == ["A", "B", "C"] and page.count("a new book") == 1
