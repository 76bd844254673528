"""A file of a site says all that it rests on, and is made again when that changes and not otherwise."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar

import pytest

from composed import drawings, spoken, written
from saponary.assets.digest import digest
from saponary.assets.step import Step
from saponary.assets.store import DiskStore, Key, NoStore
from saponary.book.changes import Changed
from saponary.book.proofed import Proofed
from saponary.build import pages as made_pages
from saponary.build.content import Bytes, content
from saponary.build.graph import PAGE, STEPS
from saponary.build.pages import Pages
from saponary.build.proof import prove
from saponary.build.shown import as_before, keep, made_from, recalled, shown_now
from saponary.label.lists import bar
from saponary.outputs import rests_on
from saponary.outputs.compose import composition
from saponary.outputs.pages import card, searching
from saponary.outputs.rows import Rows
from saponary.outputs.values import value_of
from saponary.pantry.model import Pantry
from saponary.reading.findings import Finding, Place
from saponary.schema.edition import EditionEntry, editions
from saponary.schema.waivers import Waived
from saponary.views import for_edition as cut
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PhotoSet
from support import PLAIN, REPOSITORY, in_part, write_book

STANDARD = REPOSITORY / "templates"
EDITIONS = ("public", "maker", "plain-list")
ON = date(2026, 3, 20)

BATCHES = """\
batches:
  - lot: A-1
    poured: 2026-03-02
    formula: '0123456789ab'
    notes: Poured after [the lamp](lamp.md).
    weighed: {0: 128.2 g, 7: 122.4 g, 14: 118.9 g, 28: 115.1 g, 42: 113.6 g}
    photos: [{file: bar.jpg, day: 14, alt: A pale bar}]
"""
LAMP = (
    PLAIN.replace("Plain Bar", "Lamp")
    .replace("superfat: 5 %\n", "superfat: 5 %\nadditions:\n  - {what: odds, amount: 100 g, at: pour}\n", 1)
    .replace("signed:", "pour:\n  - embeds: {of: odds, shape: round, across: 30 mm, count: 1}\nsigned:")
)
BOOK = {
    "book.yaml": "title: A Small Book\nbase-url: https://book.invalid\n",
    "pantry.yaml": "oils: {olive: {price: 8 / kg}}\nscraps: {odds: {of: plain}}\n",
    "recipes/plain.md": PLAIN.replace("signed:", BATCHES + "signed:").replace(
        "A plain bar.", "It stands by [the lamp](../recipes/l%61mp.md)."
    ),
    "recipes/lamp.md": LAMP,
    "recipes/ochre.md": PLAIN.replace("Plain Bar", "Ochre {superfat}").replace(
        "superfat: 5 %\n", "additions:\n  - {what: kaolin, amount: 10 g, at: pour}\nsuperfat: 5 %\n", 1
    ),
    "photos/bar.jpg": "",
}

T = TypeVar("T")
Change = Callable[[Unpublished], Unpublished]


def changed_file(name: str, old: str, new: str) -> Change:
    assert old in BOOK[name]
    return lambda _: whole((name, BOOK[name].replace(old, new)))


@cache
def whole(*changed: tuple[str, str]) -> Unpublished:
    """The small book, with the text of some files changed."""
    with TemporaryDirectory() as folder:
        proof = prove(write_book(Path(folder), {**BOOK, **dict(changed)}))
        assert not proof.failed, [f.message for f in proof.findings if f.severity == "error"]
    return Unpublished(
        replace(proof.book, pantry=small(proof.book.pantry)),
        proof.recipes,
        "engine 1",
        "tables 1",
        photos={"bar.jpg": PhotoSet(800, 600, (("image/jpeg", "photos/a.jpg 800w"),), "photos/a.jpg", "")},
        earlier={"plain": {"0123456789ab": ("olive 60.0 to 59.0 %",)}},
        changed={"plain": Changed(date(2026, 3, 1), False)},
        labels={one.slug: bar(one.computed) for one in proof.recipes},
        on=ON,
    )


def small(shelf: Pantry) -> Pantry:
    """A shelf of a few things, since the whole standard one is long to read and to digest."""
    used = {"olive", "coconut", "sunflower-high-oleic", "kaolin", "ultramarine-blue", "odds"}

    def few(kept: Mapping[str, T]) -> dict[str, T]:
        return {name: thing for at, (name, thing) in enumerate(kept.items()) if at < 6 or name in used}

    return replace(
        shelf,
        oils=few(shelf.oils),
        liquids=few(shelf.liquids),
        additions=few(shelf.additions),
        terms=shelf.terms[:9],
    )


def with_book(**more: object) -> Change:
    return lambda site: replace(site, book=replace(site.book, **more))  # type: ignore[arg-type]


def emptied(shelf: Pantry) -> Pantry:
    return replace(shelf, additions={}, terms=shelf.terms[:3])


CHANGES: dict[str, Change] = {
    "a recipe's summary": changed_file("recipes/plain.md", "title: Plain Bar\n", "title: Plain Bar\nsummary: Soft.\n"),
    "a recipe's title": changed_file("recipes/plain.md", "title: Plain Bar", "title: Aubergine Bar"),
    "a recipe's collection": changed_file("recipes/ochre.md", "oils:\n", "collection: Earth\noils:\n"),
    "a recipe's weights": changed_file("recipes/plain.md", "total: 1000 g", "total: 900 g"),
    "a recipe's notes": changed_file("recipes/ochre.md", "A plain bar.", "Another. See [it](plain.md)."),
    "a colour that a scrap has": changed_file(
        "recipes/plain.md", "superfat: 5 %\n", "additions:\n  - {what: ultramarine-blue, amount: 9 g, at: trace}\nsuperfat: 5 %\n"
    ),
    "a lot": changed_file("recipes/plain.md", "poured: 2026-03-02", "poured: 2026-03-01"),
    "a status": changed_file("recipes/ochre.md", "signed:\n  superfat: 5.0 %\n", ""),
    "a recipe gone": lambda site: replace(site, recipes=site.recipes[1:]),
    "the book's title": changed_file("book.yaml", "A Small Book", "A Smaller Book"),
    "the book's scale": changed_file("book.yaml", "base-url", "scale-step: 5 g\nbase-url"),
    "the book's address": changed_file("book.yaml", "book.invalid", "other.invalid"),
    "the pantry": lambda site: with_book(pantry=emptied(site.book.pantry))(site),
    "a price": changed_file("pantry.yaml", "8 / kg", "9 / kg"),
    "a waiver": with_book(waived=(Waived("photos", "", "None yet.", Place("pantry.yaml")),)),
    "a photo": lambda site: replace(site, photos={"bar.jpg": replace(site.photos["bar.jpg"], src="photos/b.jpg")}),
    "earlier formulas": lambda site: replace(site, earlier={"plain": {"0123456789ab": ("superfat 4.0 to 5.0 %",)}}),
    "when it last changed": lambda site: replace(site, changed={"plain": Changed(date(2026, 3, 9), True)}),
    "an ingredient list": lambda site: replace(site, labels={**site.labels, "ochre": site.labels["lamp"]}),
    "the engine": lambda site: replace(site, engine="engine 2"),
    "the tables": lambda site: replace(site, tables="tables 2"),
    "the day": lambda site: replace(site, on=ON + timedelta(30)),
    "a remark": lambda site: replace(site, recipes=tuple(_remarked(one) for one in site.recipes)),
}  # fmt: skip


def _remarked(one: Proofed) -> Proofed:
    found = Finding("superfat", "warning", Place(one.computed.path), "it is low", "")
    return replace(one, findings=(*one.findings, found))


def pages(site: Unpublished, edition: str, templates: tuple[Path, ...] = (STANDARD,)) -> Pages:
    """The files of one edition of a whole book."""
    known = editions({"plain-list": EditionEntry(shows=["ingredients", "drawing"])})
    cut = for_edition(site, known[edition])
    made = composition(cut, templates, drawings(cut), spoken(templates))
    return Pages(made, NoStore())


def told(made: Pages) -> dict[str, tuple[Key, bytes]]:
    """Every file's key and bytes, by its path."""
    return {file.path: (made.key(file), written(file)) for file in made.composed.files}


@cache
def before(edition: str) -> dict[str, tuple[Key, bytes]]:
    return told(pages(whole(), edition))


def differing(edition: str, now: dict[str, tuple[Key, bytes]]) -> set[str]:
    """Files whose bytes differ, in both sites; each of them must have another key."""
    then = before(edition)
    both = {path for path in then.keys() & now.keys() if then[path][1] != now[path][1]}
    assert not {path for path in both if then[path][0] == now[path][0]}, (
        "these did not say that they rest on it"
    )
    return both | (then.keys() ^ now.keys())


OF_READERS = [(what, edition) for what in CHANGES for edition in EDITIONS if edition != "maker"]


@pytest.mark.parametrize(
    "case", in_part(OF_READERS, lambda case: case[0]), ids=lambda case: " in ".join(case)
)
def test_every_file_that_changes_said_that_it_rests_on_it(case: tuple[str, str]) -> None:
    what, edition = case
    after = CHANGES[what](whole())
    differing(edition, told(pages(after, edition)))
    assert reached(what), "nothing changed"


@cache
def reached(what: str) -> bool:
    """Whether it changes a file of the maker's edition, which shows everything, or which files there are."""
    return bool(differing("maker", told(pages(CHANGES[what](whole()), "maker"))))


@pytest.mark.parametrize("what", [what for what in CHANGES if what != "an ingredient list"])
def test_a_recipe_that_is_shown_otherwise_has_another_key(what: str) -> None:
    """Its digest is not made again where its key is as it was."""
    then, after = shown(whole()), shown(CHANGES[what](whole()))
    told = {name for name in then.keys() & after.keys() if then[name] != after[name]}
    assert not {name for name in told if then[name][0] == after[name][0]}


def shown(site: Unpublished) -> dict[tuple[str, str], tuple[str, str]]:
    """The key and the digest of every recipe as an edition shows it."""
    found: dict[tuple[str, str], tuple[str, str]] = {}
    for name in ("public", "maker"):
        made = for_edition(site, editions({})[name])
        of = made_from(site, made.edition)
        for one in made.recipes:
            value = rests_on.recipe(one.slug)
            found[name, one.slug] = of[one.slug], digest([value_of(value, made, (), ()), one.glance])
    return found


def test_a_recipe_that_is_as_it_was_is_not_published(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the edition showed last tells every page's key."""
    edition, store = editions({})["maker"], DiskStore(tmp_path)
    site, now = for_edition(whole(), edition), made_from(whole(), edition)
    rows = Rows("maker", store)
    first = Pages(composition(site, (STANDARD,), spoken=spoken((STANDARD,)), rows=rows), NoStore())
    keys = {file.path: first.key(file) for file in first.composed.files}
    keep(store, edition, shown_now({one.slug: one.glance for one in site.recipes}, now, first.digests))
    was = as_before(recalled(store, edition), now)
    assert was.keys() == now.keys() == {one.slug for one in site.recipes}
    monkeypatch.setattr(cut, "published", lambda *_: pytest.fail("a recipe was published"))
    again = for_edition(whole(), edition, {slug: one.glance for slug, one in was.items()})
    known = {name: of for one in was.values() for name, of in one.digests.items()}
    rows = Rows("maker", store)
    pages = Pages(composition(again, (STANDARD,), spoken=spoken((STANDARD,)), rows=rows), NoStore(), known)
    assert {file.path: pages.key(file) for file in pages.composed.files} == keys


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("base.html", "<main", "<main data-own"),
        ("style/10-ground.css", "", "p { margin: 0 }\n"),
        ("script/ticks.js", "", "// own\n"),
    ],
)
def test_a_books_own_template_makes_other_pages(name: str, old: str, new: str, tmp_path: Path) -> None:
    text = (STANDARD / name).read_text()
    assert old in text
    write_book(tmp_path, {name: text.replace(old, new, 1)})
    assert differing("maker", told(pages(whole(), "maker", (tmp_path, STANDARD))))


def test_another_edition_shares_no_page_that_differs() -> None:
    for edition in EDITIONS[1:]:
        assert differing("public", before(edition))


def kept(edition: str, after: Unpublished) -> set[str]:
    """Files that need not be made again."""
    then, made = before(edition), pages(after, edition)
    return {f.path for f in made.composed.files if f.path in then and made.key(f) == then[f.path][0]}


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_source_that_says_the_same_changes_no_key(edition: str) -> None:
    reworded = changed_file("recipes/ochre.md", "oils:\n", "# a remark of the maker's\noils:\n")
    assert kept(edition, reworded(whole())) == before(edition).keys()


def test_what_a_change_does_not_reach_is_kept() -> None:
    summary = kept("maker", CHANGES["a recipe's summary"](whole()))
    assert {"recipes/ochre/index.html", "recipes/ochre/fresh.svg", "glossary/index.html"} <= summary
    assert "recipes/plain/index.html" not in summary
    notes = before("maker").keys() - kept("maker", CHANGES["a recipe's notes"](whole()))
    assert notes == {"recipes/ochre/index.html", "assets/words-0.js"}
    gone = before("maker").keys() - kept("maker", CHANGES["a recipe gone"](whole()))
    assert {"recipes/plain/index.html", "recipes/ochre/index.html", "lots/plain/a-1/index.html"} <= gone
    assert not {"recipes/ochre/at-the-bench.html", "recipes/ochre/figures.json"} & gone
    a_day_later = kept("maker", CHANGES["the day"](whole()))
    assert {"index.html", "recipes/plain/index.html", "figures.json"} <= a_day_later
    scrap = kept("maker", CHANGES["a colour that a scrap has"](whole()))
    assert "recipes/ochre/index.html" in scrap and "recipes/lamp/index.html" not in scrap


def test_of_the_words_for_the_search_only_the_file_of_a_new_word_is_made_anew(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(searching, "parts", lambda _: 16)
    reworded = changed_file("recipes/ochre.md", "A plain bar.", "A plain bar. Zesty.")
    then, now = (
        {f.path: p.key(f) for f in p.composed.files}
        for p in [pages(site, "maker") for site in (whole(), reworded(whole()))]
    )
    assert len([path for path in then if path.startswith("assets/words-")]) == 16
    anew = {path for path in now if now[path] != then.get(path)}
    assert anew == {"recipes/ochre/index.html", searching.address(searching.part_of("zesty", 16))}


def test_a_page_that_is_kept_is_not_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site = for_edition(whole(), editions({})["maker"])
    pages_ = Pages(composition(site, (STANDARD,)), DiskStore(tmp_path))
    made = pages_.made()
    first = dict(Bytes(made))
    assert {path: data for path, (_, data) in before("maker").items()} == first
    again = composition(site, (STANDARD,))
    monkeypatch.setattr(type(again.context), "page", lambda *_, **__: pytest.fail("a template was filled"))
    assert dict(Bytes(Pages(again, DiskStore(tmp_path)).made())) == first
    known = Pages(again, DiskStore(tmp_path), earlier=pages_.told(made)).made()
    assert {path: one.digest for path, one in known.items()} == {
        p: content(d).digest for p, d in first.items()
    }
    assert dict(Bytes(known)) == first


def test_a_card_lies_in_the_store_once_and_is_found_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, store = for_edition(whole(), editions({})["public"]), DiskStore(tmp_path)
    made = Pages(composition(site, (STANDARD,), drawings(site), spoken((STANDARD,))), store)
    first = {path: one for path, one in made.made().items() if path.endswith("card.jpg")}
    data = dict(Bytes(first))
    kept = [
        path.parent.name
        for path in tmp_path.rglob("*")
        if path.is_file() and path.read_bytes().endswith(data["recipes/lamp/card.jpg"])
    ]
    assert kept == ["card"]
    monkeypatch.setattr(card, "as_jpeg", lambda _: pytest.fail("a card was drawn"))
    again = composition(site, (STANDARD,), drawings(site), spoken((STANDARD,)))
    for earlier in (None, made.told(made.made())):
        found = Pages(again, DiskStore(tmp_path), earlier=earlier).made()
        assert {path: found[path].read() for path in data} == data


DATED = {"cure-shelf/index.html", "lots/index.html", "ready.ics", "feed.xml"}


def test_a_recipe_is_asked_about_again_only_on_days_on_which_its_lots_turn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a lot that cures each day tells another thing, of one that has cured none does."""
    edition, store = editions({})["public"], DiskStore(tmp_path)
    days = [ON, ON + timedelta(1), ON + timedelta(90), ON - timedelta(90), ON + timedelta(91)]
    for day in days:
        site = for_edition(replace(whole(), on=day), edition)
        kept = Pages(composition(site, (STANDARD,), rows=Rows(edition.name, store)), NoStore())
        plain = Pages(composition(site, (STANDARD,)), NoStore())
        dated = [[f for f in one.composed.files if f.path in DATED] for one in (kept, plain)]
        assert {f.path for f in dated[0]} == DATED
        assert [(f.path, kept.key(f)) and f.write() for f in dated[0]] == [f.write() for f in dated[1]]
    of = [made_from(replace(whole(), on=day), edition) for day in days]
    assert of[0] == of[1] and of[2] == of[4] and not {of[0]["plain"], of[3]["plain"]} & {of[2]["plain"]}
    monkeypatch.setattr(cut, "published", lambda *_: pytest.fail("a recipe was published"))
    glances, known = {one.slug: one.glance for one in site.recipes}, kept.digests
    site = for_edition(replace(whole(), on=days[-1] + timedelta(1)), edition, glances)
    rows = Rows(edition.name, store)
    again = Pages(
        composition(site, (STANDARD,), rows=rows),
        NoStore(),
        {n: d for n, d in known.items() if rests_on.is_of_recipe(n)},
    )
    assert [f.path for f in again.composed.files if f.path in DATED and again.key(f) == kept.key(f)] == [
        "feed.xml"
    ]


@pytest.mark.parametrize("workers", [1, 3])
def test_any_number_of_workers_makes_the_same_site(
    workers: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(made_pages, "FEW", 2)
    site = for_edition(whole(), editions({})["maker"])
    told: list[tuple[int, int]] = []
    drawn = Drawings(site, DiskStore(tmp_path))
    made = Pages(
        composition(site, (STANDARD,), drawn, spoken((STANDARD,))),
        DiskStore(tmp_path),
        workers=workers,
        progress=lambda *done: told.append(done),
    ).made()
    assert list(Bytes(made).items()) == [(path, data) for path, (_, data) in before("maker").items()]
    assert told[-1] == (len(made), len(made)) and sorted(told) == told


def test_another_version_of_the_code_makes_every_page_again(monkeypatch: pytest.MonkeyPatch) -> None:
    changed = replace(PAGE, rooms=PAGE.rooms[1:])
    monkeypatch.setattr(made_pages, "PAGE", changed)
    assert not kept("public", whole())


def test_pages_are_made_by_these_rooms_alone() -> None:
    layers = {path.name for path in (REPOSITORY / "generator" / "saponary").iterdir() if path.is_dir()}
    assert set(PAGE.rooms) == layers - {"checks", "build", "watch", "manual", "cli", "__pycache__"}


def test_steps_have_names_of_their_own_and_take_what_they_use() -> None:
    assert len({step.name for step in STEPS}) == len(STEPS)
    step = Step("tried", ("a", "b"), ("quantity/units.py",))
    assert step.key(1, 2) == step.key(1, 2) != step.key(2, 1)
    assert replace(step, rooms=("quantity/rounding.py",)).key(1, 2) != step.key(1, 2)
    with pytest.raises(ValueError, match="uses a, b; 1 inputs"):
        step.key(1)


def test_which_pdfs_there_are_is_told() -> None:
    site = for_edition(whole(), editions({})["maker"])
    with_sheet = replace(site, pdfs=frozenset({"sheets/plain-a4.pdf"}))
    told = [value_of(rests_on.PDFS, one, (), ()) for one in (site, with_sheet)]
    assert told == [[], ["sheets/plain-a4.pdf"]]


def test_a_name_of_nothing_is_refused() -> None:
    with pytest.raises(KeyError):
        value_of("weather", for_edition(whole(), editions({})["public"]), (), ())
