"""The work order for a phone: every weighing of the recipe page, one stage a screen, ticks that stay."""

from __future__ import annotations

import posixpath
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from xml.etree import ElementTree

import html5lib
import pytest

from composed import composed
from saponary.messages.message import message
from saponary.schema.edition import STANDARD
from saponary.views.bench_screens import screens
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.stages.stage import Stage
from support import BOOKS, PLAIN, proof_of, prove_one, some

X = "{http://www.w3.org/1999/xhtml}"


def site_of(book: str, edition: str = "public") -> Mapping[str, bytes]:
    """The files of a site."""
    proof = proof_of(book)
    whole = Unpublished(proof.book, proof.recipes, "engine", "tables")
    return composed(for_edition(whole, STANDARD[edition]))


def parse(data: bytes) -> ElementTree.Element:
    return html5lib.HTMLParser(strict=True).parse(data.decode("utf-8"))


def text(element: ElementTree.Element) -> str:
    return " ".join("".join(element.itertext()).split())


def classed(page: ElementTree.Element, tag: str, name: str) -> list[ElementTree.Element]:
    return [e for e in page.iter(f"{X}{tag}") if name in str(e.get("class")).split()]


@pytest.mark.parametrize("book", ["starters", pytest.param("demo", marks=pytest.mark.slow)])
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
        assert len(list(page.iter(f"{X}input"))) >= len(ticked)


@pytest.mark.parametrize("book", sorted(BOOKS))
def test_the_way_leads_through_every_screen(book: str) -> None:
    made = site_of(book)
    for path in some(path for path in made if path.endswith("/at-the-bench.html")):
        page = parse(made[path])
        screens = classed(page, "section", "screen")
        ids = [screen.get("id") for screen in screens]
        onward = [a.get("href") for screen in screens for a in classed(screen, "a", "next")]
        back = [a.get("href") for screen in screens for a in classed(screen, "a", "back")]
        assert onward == [f"#{name}" for name in ids[1:]], path
        assert back == [f"#{name}" for name in ids[:-1]], path
        (end,) = classed(page, "a", "end")
        assert end in list(screens[-1].iter()), path
        home = posixpath.normpath(posixpath.join(posixpath.dirname(path), end.get("href") or ""))
        assert home == posixpath.dirname(path) + "/index.html"
        for screen in screens:
            assert list(screen.iter(f"{X}input")) or classed(screen, "p", "say"), (path, screen.get("id"))
        places = [text(p) for p in classed(page, "p", "position")]
        assert places == [f"{at} of {len(ids)}" for at in range(1, len(ids) + 1)]


def test_the_pour_has_its_drawing_and_the_page_says_what_keeps_it() -> None:
    made = site_of("starters")
    for path in some(path for path in made if path.endswith("/at-the-bench.html")):
        page = parse(made[path])
        drawn = [e for e in page.iter(f"{X}img") if e.get("src") == "fresh.svg"]
        pours = [s for s in classed(page, "section", "screen") if s.get("id") == "pour"]
        assert len(drawn) == len(pours) and all(
            e in list(s.iter()) for e, s in zip(drawn, pours, strict=True)
        )
        (keeper,) = [e for e in page.iter(f"{X}script") if e.get("data-worker")]
        assert keeper.get("data-worker") == "../../offline.js"
        policy = next(e.get("content") for e in page.iter(f"{X}meta") if e.get("http-equiv"))
        assert "worker-src 'self'" in str(policy)
    assert b'addEventListener("fetch"' in made["offline.js"]


ROWS = """portions:
  - {name: white, share: 1/2}
  - {name: white-1, share: 1/4}
  - {name: white-1-head, share: 1/4}
pour:
  - beds: [{of: white, depth: 25 %}]
  - columns: {of: [white, white-1, white, white-1-head], count: 8}
signed:"""


def test_no_two_things_of_a_page_have_one_name() -> None:
    proof = prove_one(PLAIN.replace("signed:", ROWS))
    whole = Unpublished(proof.book, proof.recipes, "engine", "tables")
    made = composed(for_edition(whole, STANDARD["public"]))
    for path in ("recipes/tried/index.html", "recipes/tried/at-the-bench.html"):
        named = Counter(e.get("id") for e in parse(made[path]).iter() if e.get("id"))
        assert [name for name, count in named.items() if count > 1] == []
    (pour,) = [e for e in parse(made["recipes/tried/at-the-bench.html"]).iter() if e.get("id") == "pour"]
    said = [text(label) for label in pour.iter(f"{X}label")]
    weights = {p.name: round(p.batter) for p in proof.recipes[0].computed.figures.portions}
    assert said[1].endswith(
        f"8 columns. In all the white 1 ({weights['white-1']} g) and the white 1 head ({weights['white-1-head']} g)."
    )


def test_a_tick_follows_what_it_says() -> None:
    title = message("work.pour.title")
    one, two = (
        Stage("pour", title, order=(message("pour.into-mould"), message("pour.into-mould"))),
        Stage("pour", title, order=(message("pour.line", powder="a", over="b"), message("pour.into-mould"))),
    )
    (first,), (second,) = screens([one]), screens([two])
    assert [tick.id for tick in first.order] == ["tick_pour_pour-into-mould", "tick_pour_pour-into-mould_2"]
    assert [tick.id for tick in second.order] == ["tick_pour_pour-line-a-b", "tick_pour_pour-into-mould"]


def test_who_sees_no_work_order_has_none_at_the_bench() -> None:
    made = site_of("demo", "shop")
    assert not [path for path in made if "at-the-bench" in path or "ticks" in path]


PRESS = """<script>addEventListener("load", () => setTimeout(() => {
  const boxes = [...document.querySelectorAll("input")];
  %s
}, 50));</script>"""
"""What a hand does, once the page is there."""
ELSEWHERE = """const key = document.querySelector("[data-ticks]").dataset.ticks;
  localStorage.setItem(key, JSON.stringify([boxes[0].id, boxes[1].id, boxes[3].id]));"""
"""What another window on the same page does, unseen by this one."""


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
    # The page's own policy, under which it was just shown, would not let a test's script run.
    plain = re.sub('<meta http-equiv="Content-Security-Policy"[^>]*>', "", plain)
    page.write_text(plain + PRESS % "boxes[1].click(); boxes[3].click();", encoding="utf-8")
    assert shown(page, profile) == f"2 of {count} done."
    page.write_text(plain, encoding="utf-8")
    assert shown(page, profile) == f"2 of {count} done."
    page.write_text(plain + PRESS % f"{ELSEWHERE} boxes[3].click();", encoding="utf-8")
    assert shown(page, profile) == f"1 of {count} done."
    page.write_text(plain, encoding="utf-8")
    assert shown(page, profile) == f"2 of {count} done."
    for presses, left in ((1, 0), (2, 2), (3, 0)):
        clicks = "document.querySelector('.clear').click();" * presses
        page.write_text(plain + PRESS % clicks, encoding="utf-8")
        assert shown(page, profile) == f"{left} of {count} done."
        page.write_text(
            plain + PRESS % "boxes[1].checked || boxes[1].click(); boxes[0].checked || boxes[0].click();"
        )
        shown(page, profile)
    mark = re.search(r'data-ticks="saponary ([0-9a-f]+)"', plain)
    assert mark is not None
    page.write_text(plain.replace(mark[1], "0" * len(mark[1])), encoding="utf-8")
    assert shown(page, profile) == f"0 of {count} done."
