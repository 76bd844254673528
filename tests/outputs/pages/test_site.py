"""The composed site, read back as a browser reads it: two real books, and recipes made to trip it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path, PurePosixPath
from posixpath import normpath
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import html5lib
import pytest

from composed import composed
from saponary.book.engine import ENGINE
from saponary.build.proof import Proof
from saponary.outputs.compose import compose
from saponary.quantity.rounding import told
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PhotoSet, SiteInput
from support import PLAIN, REPOSITORY, proof_of, prove_one, some

TEMPLATES = (REPOSITORY / "templates",)
X = "{http://www.w3.org/1999/xhtml}"


def site_input(proof: Proof, edition: str = PUBLIC, **more: object) -> SiteInput:
    whole = Unpublished(proof.book, proof.recipes, ENGINE, proof.book.pantry.version, **more)  # type: ignore[arg-type]
    return for_edition(whole, STANDARD[edition])


def files(proof: Proof, **more: object) -> dict[str, bytes]:
    return dict(composed(site_input(proof, **more)))


@cache
def parse(data: bytes) -> ElementTree.Element:
    return html5lib.HTMLParser(strict=True).parse(data.decode("utf-8"))


def text(element: ElementTree.Element) -> str:
    return " ".join("".join(element.itertext()).split())


@pytest.fixture(scope="module", params=["demo", pytest.param("starters", marks=pytest.mark.slow)])
def book(request: pytest.FixtureRequest) -> tuple[Proof, Mapping[str, bytes]]:
    proof = proof_of(request.param)
    return proof, files(proof)


def pages(made: Mapping[str, bytes]) -> dict[str, ElementTree.Element]:
    return {path: parse(data) for path, data in made.items() if path.endswith(".html")}


def test_the_required_files_are_there_and_drafts_are_not(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    proof, made = book
    assert {"index.html", "figures.json", "glossary/index.html", "ingredients/index.html"} <= made.keys()
    assert len([path for path in made if re.fullmatch(r"assets/style-[0-9a-f]{10}\.css", path)]) == 1
    for one in proof.recipes:
        there = f"recipes/{one.computed.file.slug}/index.html" in made
        assert there == (one.status.name != "draft")
    whole = b"".join(data for path, data in made.items() if path.endswith(".html"))
    for one in proof.recipes:
        if one.status.name == "draft":
            assert one.computed.model.title.encode() not in whole


@pytest.mark.parametrize("name", ["starters", pytest.param("demo", marks=pytest.mark.slow)])
def test_same_input_same_bytes(name: str) -> None:
    """Drawings, which `files` recalls where they were drawn before, are drawn anew."""
    proof = proof_of(name)
    assert {one.path: one.data for one in compose(site_input(proof), TEMPLATES)} == files(proof)


def test_every_page_is_sound(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    for path, page in some(pages(book[1]).items()):
        assert page.get("lang"), path
        ids = [element.get("id") for element in page.iter() if element.get("id")]
        assert len(ids) == len(set(ids)), (path, [i for i in ids if ids.count(i) > 1])
        assert len(list(page.iter(f"{X}main"))) == 1 and len(list(page.iter(f"{X}h1"))) == 1, path
        levels = [int(e.tag[-1]) for e in page.iter() if re.fullmatch(rf"{re.escape(X)}h[1-6]", str(e.tag))]
        assert levels[0] == 1 and all(b <= a + 1 for a, b in pairwise(levels)), (path, levels)
        for image in page.iter(f"{X}img"):
            assert image.get("alt") or image.get("class") == "logo", path  # its words stand beside it
        notes = {id(e) for part in page.iter() if part.get("class") == "notes" for e in part.iter()}
        for table in (e for e in page.iter(f"{X}table") if id(e) not in notes):  # Markdown has no captions
            assert table.find(f"{X}caption") is not None, path
        for head in page.iter(f"{X}th"):
            assert head.get("scope"), path
        for named in page.iter():
            if named.get("aria-labelledby"):
                assert all(i in ids for i in str(named.get("aria-labelledby")).split()), path


def addresses(page: ElementTree.Element) -> list[str]:
    found = [str(e.get(name)) for e in page.iter() for name in ("href", "src") if e.get(name) is not None]
    for element in page.iter():
        found += [part.split()[0] for part in (element.get("srcset") or "").split(",") if part.strip()]
    return found


def test_every_address_is_relative_and_leads_somewhere(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    made = book[1]
    parsed = pages(made)
    for path, page in some(parsed.items()):
        if path.endswith("404.html"):  # shown at any address, so that its links begin at the root
            continue
        for address in some(addresses(page)):
            parts = urlsplit(address)
            if parts.scheme in ("http", "https", "mailto"):
                continue
            assert not parts.scheme and not parts.netloc and not address.startswith("/"), (path, address)
            target = normpath(str(PurePosixPath(path).parent / unquote(parts.path))) if parts.path else path
            assert target in made, (path, address)
            if parts.fragment:
                ids = {element.get("id") for element in parsed[target].iter()}
                assert parts.fragment in ids, (path, address)


BENCH = "at-the-bench.html"
OWN_SCRIPTS = {BENCH: [("../../assets/ticks.js", "")], "index.html": [("assets/choose.js", "")]}
"""By the page's path, or by its name where every recipe has one."""


def own_scripts(path: str) -> list[tuple[str, str]]:
    """What a page of ours loads."""
    return OWN_SCRIPTS.get(BENCH if path.endswith(f"/{BENCH}") else path, [])


def scripts(page: ElementTree.Element) -> list[tuple[str, str]]:
    """Every script of a page that is run: its address less the part that tells its content, and what is inside."""
    run = [e for e in page.iter(f"{X}script") if e.get("type") != "application/ld+json"]
    return [(re.sub(r"-[0-9a-f]{10}(?=\.js$)", "", str(e.get("src"))), text(e)) for e in run]


def test_no_page_asks_another_host_for_anything(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    for path, data in some(book[1].items()):
        if path.endswith(".css"):
            own = set(re.findall(rb'url\("(type/[a-z-]+\.woff2)"\)', data))
            assert len(own) == data.count(b"url(") and b"@import" not in data
            home = path.rpartition("/")[0]
            assert {f"{home}/{name.decode()}" for name in own} <= book[1].keys()
        if path.endswith(".js"):
            asking = rb"//[a-z]|fetch|import|XMLHttpRequest|sendBeacon|innerHTML|eval"
            if path == "offline.js":
                # It asks for what the page asks for, and for nothing of another host.
                assert data.count(b"fetch(") == 2 and data.count(b"own(request.url)) return;") == 1
                assert b"if (!parts.every(own)) return;" in data
                asking = asking.replace(b"fetch|", b"")
            assert not re.search(asking, data), path
        if path.endswith(".html"):
            page = parse(data)
            assert scripts(page) == own_scripts(path), path
            loaded = [e.get("src") for e in page.iter() if e.get("src")]
            loaded += [e.get("href") for e in page.iter(f"{X}link") if e.get("rel") != "canonical"]
            assert not [a for a in loaded if a and "//" in a], path


def test_cautions_stand_on_every_page(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    proof, made = book
    said = (
        "Lye into water, never water onto lye.", "Tight goggles", "No aluminium.", "Open a window.",
        "at least 15 minutes", "Keep children and animals out.", "not legal or medical advice",
    )  # fmt: skip
    for path, page in some(pages(made).items()):
        whole = text(page)
        for sentence in said:
            assert sentence in whole, (path, sentence)
        if proof.book.settings.emergency:
            assert " ".join(proof.book.settings.emergency.split()) in whole


def test_the_words_that_the_figures_link_to_are_explained(book: tuple[Proof, Mapping[str, bytes]]) -> None:
    words = pages(book[1])["glossary/index.html"]
    ids = {element.get("id") for element in words.iter()}
    assert {
        "superfat",
        "lye-strength",
        "water-to-lye",
        "water-of-oils",
        "iodine-value",
        "saponification-value",
    } <= ids


TRAP = PLAIN.replace("title: Plain Bar", 'title: "Bar <script>alert(1)</script> & Co"').replace(
    "oils:\n",
    "summary: '<img src=x onerror=alert(1)> {lye} \"quoted\"'\n"
    "steps:\n  - {at: before, say: '<b>bold</b> & *kind*'}\n"
    "private: {secret: the hidden word xyzzy}\noils:\n",
    1,
)
BODY = """\
# Top <b>not bold</b>

[run](javascript:alert(1)) [run](JaVaScRiPt:alert(1)) [data](data:text/html,x) [host](//evil.example/x)
[good](https://example.org/) [near](#figures)

![the word](http://evil.example/x.png)

`{lye}` and \\{lye} and **{lye}**

    {lye} in code

<script>alert(2)</script>
"""


def trap() -> dict[str, bytes]:
    return files(prove_one(TRAP + BODY))


@pytest.mark.parametrize("edition", sorted(STANDARD))
def test_what_is_waived_stands_with_its_reason_on_the_bench_alone(edition: str) -> None:
    waive = "waive: [{rule: claims, because: a saying of 1850}]\nsigned:"
    proof = prove_one(PLAIN.replace("signed:", waive) + "It cures eczema, they said.\n")
    made = composed(site_input(proof, edition))
    said = {path for path, data in made.items() if b"a saying of 1850" in data}
    assert said == ({"waived-rules/index.html", "recipes/tried/index.html"} if edition == "maker" else set())


def test_text_from_a_recipe_stays_text() -> None:
    made = trap()
    for path, data in made.items():
        if path.endswith(".html"):
            page = parse(data)
            assert scripts(page) == own_scripts(path), path
            assert not list(page.iter(f"{X}b")), path
            assert not [e for e in page.iter() for name in e.attrib if str(name).startswith("on")], path
            assert b"xyzzy" not in data
    page = parse(made["recipes/tried/index.html"])
    heading = next(iter(page.iter(f"{X}h1")))
    assert text(heading) == "Bar <script>alert(1)</script> & Co"
    hrefs = [str(e.get("href")) for e in page.iter(f"{X}a")]
    assert "https://example.org/" in hrefs
    assert not [h for h in hrefs if h.lower().startswith(("javascript:", "data:", "//"))]
    assert not [e for e in page.iter(f"{X}img") if "evil" in str(e.get("src"))]
    assert "the word" in text(page)


def test_figures_in_code_stay_as_written() -> None:
    page = parse(trap()["recipes/tried/index.html"])
    notes = next(e for e in page.iter(f"{X}section") if e.get("aria-labelledby") == "notes")
    assert [text(code) for code in notes.iter(f"{X}code")] == ["{lye}", "{lye} in code"]
    lye = prove_one(TRAP + BODY).recipes[0].computed.catalogue["lye"]
    (figure,) = notes.iter(f"{X}data")
    assert text(figure) == lye.text() and float(str(figure.get("value"))) == told(lye.value)
    assert "and {lye} and" in text(notes)


def test_headings_of_the_notes_stand_under_their_own() -> None:
    page = parse(trap()["recipes/tried/index.html"])
    assert "Top <b>not bold</b>" in [text(h) for h in page.iter(f"{X}h3")]


def test_a_link_to_a_recipe_file_leads_to_its_page() -> None:
    page = parse(
        files(prove_one(PLAIN + "\n[itself](tried.md) and [none](nowhere.md)\n"))["recipes/tried/index.html"]
    )
    notes = next(e for e in page.iter(f"{X}section") if e.get("aria-labelledby") == "notes")
    assert [(a.get("href"), text(a)) for a in notes.iter(f"{X}a")] == [
        ("../../recipes/tried/index.html", "itself")
    ]


def test_photos_are_shown_where_they_are_there() -> None:
    recipe = PLAIN.replace(
        "oils:\n",
        "batches:\n  - {lot: A-1, poured: 2026-01-02, photos: [{file: a.jpg, day: 0, alt: the loaf}, {file: b.jpg, day: 9, alt: gone}]}\noils:\n",
        1,
    )
    photo = PhotoSet(
        800, 600, (("image/webp", "photos/a-400.webp 400w, photos/a-800.webp 800w"),), "photos/a.jpg", "a bar"
    )
    page = parse(files(prove_one(recipe), photos={"a.jpg": photo})["recipes/tried/index.html"])
    (image,) = [e for e in page.iter(f"{X}img") if "photos/" in str(e.get("src"))]
    assert (image.get("src"), image.get("alt")) == ("../../photos/a.jpg", "the loaf")
    (source,) = page.iter(f"{X}source")
    assert source.get("srcset") == "../../photos/a-400.webp 400w, ../../photos/a-800.webp 800w"


def test_a_book_may_put_its_own_template_first(tmp_path: Path) -> None:
    (tmp_path / "glossary.html").write_text(
        '{% extends "base.html" %}{% block content %}<h1>Mine</h1>{% endblock %}', "utf-8"
    )
    made = {
        o.path: o.data
        for o in compose(site_input(prove_one(PLAIN)), (tmp_path, *TEMPLATES))
        if o.path == "glossary/index.html"
    }
    assert b"<h1>Mine</h1>" in made["glossary/index.html"]


def test_a_template_cannot_be_a_link_out_of_its_folder(tmp_path: Path) -> None:
    own = tmp_path / "templates"
    own.mkdir()
    (tmp_path / "secret.html").write_text("secret", "utf-8")
    (own / "glossary.html").symlink_to(tmp_path / "secret.html")
    with pytest.raises(Exception, match=r"glossary\.html"):
        list(compose(site_input(prove_one(PLAIN)), (own, *TEMPLATES)))


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return float(sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True)))


def test_text_stands_out_from_the_paper_by_day_and_by_night() -> None:
    """WCAG 2.2, 1.4.6: at least 7 to 1 for text; 1.4.11: at least 3 to 1 for the edge of a control."""
    css = (REPOSITORY / "templates" / "style" / "10-ground.css").read_text(encoding="utf-8")
    schemes = [
        dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block))
        for block in re.findall(r":root \{(.*?)\}", css, re.S)
    ]
    schemes = [scheme for scheme in schemes if "paper" in scheme]
    assert len(schemes) == 2
    for scheme in schemes:
        paper = luminance(scheme["paper"])
        for name in ("ink", "quiet", "accent", "alarm"):
            high, low = sorted((paper, luminance(scheme[name])), reverse=True)
            assert (high + 0.05) / (low + 0.05) >= 7, (name, scheme[name])
        high, low = sorted((paper, luminance(scheme["edge-of-control"])), reverse=True)
        assert (high + 0.05) / (low + 0.05) >= 3
