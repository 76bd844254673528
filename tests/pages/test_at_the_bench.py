"""The work order for a phone: every weighing of the recipe page, one stage a screen, ticks that stay."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import html5lib
import pytest

from saponary.book.edition import STANDARD
from saponary.pages import RecipeInput, SiteInput, compose
from saponary.pages.edit import edit
from support import BOOKS, REPOSITORY, proof_of

X = "{http://www.w3.org/1999/xhtml}"
TEMPLATES = (REPOSITORY / "templates",)


def site_of(book: str, edition: str = "open") -> dict[str, bytes]:
    proof = proof_of(book)
    recipes = tuple(RecipeInput(one.case, one.status) for one in proof.recipes)
    whole = SiteInput(proof.book, recipes, "engine", "tables")
    return {output.path: output.data for output in compose(edit(whole, STANDARD[edition]), TEMPLATES)}


def parse(data: bytes) -> ElementTree.Element:
    return html5lib.HTMLParser(strict=True).parse(data.decode("utf-8"))


def text(element: ElementTree.Element) -> str:
    return " ".join("".join(element.itertext()).split())


def classed(page: ElementTree.Element, tag: str, name: str) -> list[ElementTree.Element]:
    return [e for e in page.iter(f"{X}{tag}") if name in str(e.get("class")).split()]


@pytest.mark.parametrize("book", sorted(BOOKS))
def test_every_weighing_of_the_recipe_page_is_there_to_be_ticked(book: str) -> None:
    made = site_of(book)
    pages = [path for path in made if re.fullmatch(r"recipes/[^/]+/at-the-bench\.html", path)]
    assert len(pages) == len([path for path in made if re.fullmatch(r"recipes/[^/]+/index\.html", path)])
    for path in pages:
        order = parse(made[path.replace("at-the-bench", "index")])
        (work,) = [e for e in order.iter(f"{X}section") if e.get("aria-labelledby") == "work"]
        rows = [row for body in work.iter(f"{X}tbody") for row in body.iter(f"{X}tr")]
        there = [
            text(td) for row in rows for td in row.iter(f"{X}td") if "main" in str(td.get("class")).split()
        ]
        page = parse(made[path])
        ticked = [text(span) for li in page.iter(f"{X}label") for span in classed(li, "span", "main")]
        assert Counter(value.rsplit(" ", 1)[0] for value in ticked) == Counter(there), path
        boxes = [e.get("id") for e in page.iter(f"{X}input")]
        assert len(boxes) == len(set(boxes)) >= len(ticked)


@pytest.mark.parametrize("book", sorted(BOOKS))
def test_the_way_leads_through_every_screen(book: str) -> None:
    for path, data in site_of(book).items():
        if not path.endswith("at-the-bench.html"):
            continue
        page = parse(data)
        screens = classed(page, "section", "screen")
        ids = [screen.get("id") for screen in screens]
        onward = [a.get("href") for screen in screens for p in classed(screen, "p", "onward") for a in p]
        assert onward == [f"#{name}" for name in ids[1:]], path
        places = [text(p) for p in classed(page, "p", "place")]
        assert places == [f"{at} of {len(ids)}" for at in range(1, len(ids) + 1)]


def test_who_sees_no_work_order_has_none_at_the_bench() -> None:
    made = site_of("demo", "shop")
    assert not [path for path in made if "at-the-bench" in path or path.endswith(".js")]


PRESS = """<script>addEventListener("load", () => {
  const boxes = [...document.querySelectorAll("input")];
  boxes[1].click(); boxes[3].click();
});</script>"""


def shown(page: Path, profile: Path) -> str:
    done = subprocess.run(
        ["chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
         f"--user-data-dir={profile}", "--virtual-time-budget=4000", "--dump-dom", page.as_uri()],
        capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    told = re.search(r'class="told"[^>]*>([^<]*)<', done.stdout)
    assert told is not None
    return told[1]


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs Chromium")
def test_ticks_are_there_after_the_page_was_closed_and_go_with_the_formula(tmp_path: Path) -> None:
    for path, data in site_of("starters").items():
        target = tmp_path / "site" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    page, profile = tmp_path / "site/recipes/salt-bar/at-the-bench.html", tmp_path / "profile"
    plain = page.read_text(encoding="utf-8")
    count = plain.count("<input ")
    assert shown(page, profile) == f"0 of {count} done."
    page.write_text(plain + PRESS, encoding="utf-8")
    assert shown(page, profile) == f"2 of {count} done."
    page.write_text(plain, encoding="utf-8")
    assert shown(page, profile) == f"2 of {count} done."
    mark = re.search(r'data-ticks="saponary salt-bar ([0-9a-f]+)"', plain)
    assert mark is not None
    page.write_text(plain.replace(mark[1], "0" * len(mark[1])), encoding="utf-8")
    assert shown(page, profile) == f"0 of {count} done."
