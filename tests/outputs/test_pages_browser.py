"""Pages as a browser lays them out: nothing runs over the edge, text stands out, things have names and are large enough,
what a reader looks for first stands high, what is chosen is shown, and a recipe prints on three pages."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Iterable
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from composed import composed
from outputs.test_head import site_of
from support import BOOKS

pytestmark = pytest.mark.browser
CHROMIUM = ("chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
            "--allow-file-access-from-files", "--hide-scrollbars")  # fmt: skip
RECIPE, SOAP = "recipes/quarry-strata/index.html", "shop/recipes/quarry-strata/index.html"
HELD, LONG_NAMED = "recipes/bell-in-a-drainpipe/index.html", "shop/recipes/uncleaned-garden-wall/index.html"
KINDS = (
    "index.html", RECIPE, HELD, "recipes/quarry-strata/at-the-bench.html",
    "colours/index.html", "cure-shelf/index.html", "glossary/index.html", "ingredients/index.html", "lye/index.html",
    "lots/index.html", "lots/quarry-strata/qs-014/index.html", "pages/the-hall/index.html", "shop/index.html", SOAP, LONG_NAMED,
    "class/index.html", "class/recipes/index.html", "class/recipes/quarry-strata/index.html", "maker/costs/index.html",
    "maker/waived-rules/index.html", "maker/classes/index.html", "maker/classes/first-winter-bench/index.html",
)  # fmt: skip

LOADED = """<!doctype html><meta charset="utf-8"><body style="margin: 0"><p id="told"></p>
<script type="application/json" id="asked">%s</script><script>
async function at(page, width) {
  const frame = document.createElement("iframe");
  frame.style.cssText = `border: 0; width: ${width}px; height: 844px`;
  frame.src = page;
  document.body.append(frame);
  await new Promise((done) => { frame.onload = done; });
  const inside = frame.contentDocument;
  for (const image of inside.images) image.loading = "eager";
  await inside.fonts.ready;
  return [frame, inside, frame.contentWindow];
}
(async () => {
  const found = [];
  for (const one of JSON.parse(document.getElementById("asked").textContent)) {
    const [frame, inside, win] = await at(one.page, one.width);
    try { found.push(await look(one, inside, win)); } catch (fault) { found.push("fault: " + fault); }
    frame.remove();
  }
  document.getElementById("told").textContent = JSON.stringify(found);
})();
%s
</script>"""


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo book's editions with its photos, in folders of their own; of each only what is looked at."""
    top = tmp_path_factory.mktemp("site")
    for edition, folder in (("public", ""), ("shop", "shop"), ("class", "class"), ("maker", "maker")):
        files, home = composed(site_of(edition)), top / folder
        for path in files:
            if path.endswith((".css", ".woff2", ".js", ".svg")) or str(Path(folder, path)) in KINDS:
                (home / path).parent.mkdir(parents=True, exist_ok=True)
                (home / path).write_bytes(files[path])
        for photo in (BOOKS["demo"] / "photos").iterdir():
            (home / "photos").mkdir(exist_ok=True)
            (home / "photos" / photo.name).symlink_to(photo)
    return top


def looked_at(root: Path, asked: Iterable[tuple[str, int]], look: str, *options: str) -> list[Any]:
    """What the script `look(one, inside, win)` says of each page at its width, in order."""
    pages = [{"page": page, "width": width} for page, width in asked]
    page = root / "looking.html"
    page.write_text(LOADED % (json.dumps(pages), look), "utf-8")
    command = [
        *CHROMIUM,
        *options,
        f"--user-data-dir={root / 'profile'}",
        "--virtual-time-budget=60000",
        "--dump-dom",
    ]
    shown = subprocess.run([*command, page.as_uri()], capture_output=True, text=True, timeout=300, check=True)
    told = re.search(r'id="told">([^<]+)<', shown.stdout)
    assert told is not None, shown.stderr[-400:]
    found: list[Any] = json.loads(unescape(told[1]))
    assert len(found) == len(pages) and not [one for one in found if str(one).startswith("fault")], found
    return found


RUNS_OVER = """
function look(one, inside, win) {
  for (const folded of inside.querySelectorAll("details")) folded.open = true;
  const over = () => inside.documentElement.scrollWidth - one.width;
  const plain = over();
  const style = new win.CSSStyleSheet();
  style.replaceSync("* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }"
    + " p { margin-bottom: 2em !important }");
  inside.adoptedStyleSheets = [style];
  return [plain, over()];
}"""


@pytest.mark.parametrize("width", [320, 390, 768, 1000, 1280])
def test_nothing_runs_over_the_edge(root: Path, width: int) -> None:
    """Sources: WCAG 2.2, 1.4.10 (320 px, which is 1280 at 400 %) and 1.4.12 (text spacing)."""
    found = looked_at(root, [(page, width) for page in KINDS], RUNS_OVER)
    wide = {page: over for page, over in zip(KINDS, found, strict=True) if max(over) > 0}
    assert not wide, wide


MOVES = """
function look(one, inside, win) {
  const high = 844, blocks = [...inside.querySelectorAll("body *")].filter((e) => !e.closest("svg, .visually-hidden, .skip"));
  const places = () => blocks.map((e) => e.getBoundingClientRect());
  const ours = places();
  for (const sheet of inside.styleSheets)
    for (let at = sheet.cssRules.length - 1; at >= 0; at -= 1)
      if (sheet.cssRules[at].cssText.includes(".woff2")) sheet.deleteRule(at);
  const spare = places();
  let area = 0, far = 0, seen = [];
  blocks.forEach((e, at) => {
    const [a, b] = [ours[at], spare[at]], way = Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y));
    if (way < 3 || Math.min(a.y, b.y) >= high || !a.height || !e.checkVisibility()) return;
    far = Math.max(far, way); seen.push([Math.round(way), e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 20)]);
    const [top, end] = [Math.max(0, Math.min(a.y, b.y)), Math.min(high, Math.max(a.bottom, b.bottom))];
    area = Math.max(area, (end - top) * Math.min(one.width, a.width));
  });
  const type = ours.some((a, at) => Math.abs(a.width - spare[at].width) > 0.01);
  return { type, shift: area / (high * one.width) * far / Math.max(high, one.width), seen: seen.sort((a, b) => b[0] - a[0]).slice(0, 5) };
}"""


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_when_the_type_comes(root: Path, width: int) -> None:
    """Source: Layout Instability (W3C community draft): the share of the window that moved, times how far of its longer side.
    The largest box that moved is taken for all; below 0.1 counts as steady, the budget is ours."""
    found = looked_at(root, [(page, width) for page in KINDS], MOVES)
    assert any(one["type"] for one in found), "the type of the book was there at first"
    moved = {page: one for page, one in zip(KINDS, found, strict=True) if one["shift"] > 0.05}
    assert not moved, moved


STANDS_OUT = """
function look(one, inside, win) {
  for (const folded of inside.querySelectorAll("details")) folded.open = true;
  const pen = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const rgba = (colour) => { pen.clearRect(0, 0, 1, 1); pen.fillStyle = colour; pen.fillRect(0, 0, 1, 1);
    return [...pen.getImageData(0, 0, 1, 1).data]; };
  const light = (c) => c.slice(0, 3).map((v) => (v /= 255, v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    .reduce((sum, v, at) => sum + v * [0.2126, 0.7152, 0.0722][at], 0);
  const wrong = [];
  for (const e of inside.querySelectorAll("body *")) {
    const says = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
    if (!says || e.closest("svg, .visually-hidden, .skip, script, caption, thead") || !e.checkVisibility()) continue;
    let behind = e;
    while (behind && rgba(win.getComputedStyle(behind).backgroundColor)[3] < 255) behind = behind.parentElement;
    const ground = rgba(win.getComputedStyle(behind || inside.documentElement).backgroundColor);
    const [high, low] = [light(rgba(win.getComputedStyle(e).color)), light(ground)].sort((a, b) => b - a);
    if ((high + 0.05) / (low + 0.05) < 4.5) wrong.push(e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 20));
  }
  for (const e of inside.querySelectorAll("a[href], button, input, select, summary")) {
    const name = e.getAttribute("aria-label") || e.textContent.trim() || (e.labels && e.labels.length && e.labels[0].textContent.trim())
      || [...e.querySelectorAll("img")].map((i) => i.alt).join("");
    if (!name) wrong.push("no name: " + e.outerHTML.slice(0, 80));
  }
  return wrong;
}"""


@pytest.mark.parametrize(("scheme", "said"), [("light", "1"), ("dark", "0")])
def test_text_stands_out_and_things_have_names(root: Path, scheme: str, said: str) -> None:
    """Source: WCAG 2.2, 1.4.3: 4.5 to 1 for text against what is behind it; 4.1.2: names."""
    found = looked_at(
        root, [(page, 390) for page in KINDS], STANDS_OUT, f"--blink-settings=preferredColorScheme={said}"
    )
    wrong = {page: faults for page, faults in zip(KINDS, found, strict=True) if faults}
    assert not wrong, wrong


HIT = """
function look(one, inside, win) {
  const missed = [];
  for (const e of inside.querySelectorAll(".code, .masthead a, .ways a, .onward a, .contents-folded a, summary, button, select")) {
    if (!e.checkVisibility({ visibilityProperty: true })) continue;
    e.scrollIntoView({ block: "center" });
    const box = e.getBoundingClientRect(), x = box.x + Math.min(box.width / 2, 20), y = box.y + box.height / 2;
    const hit = [-11.5, 0, 11.5].every((off) => { const at = inside.elementFromPoint(x, y + off); return at && (e.contains(at) || at.contains(e) && at.tagName === "SUMMARY"); });
    if (!hit) missed.push(e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 20) + " " + box.height);
  }
  return missed;
}"""


def test_what_is_tapped_is_large_enough(root: Path) -> None:
    """Source: WCAG 2.2, 2.5.8: 24 CSS pixels, none of them under something else. Links within sentences are free of it."""
    found = looked_at(root, [(page, 320) for page in KINDS], HIT)
    missed = {page: faults for page, faults in zip(KINDS, found, strict=True) if faults}
    assert not missed, missed


def test_what_is_looked_for_first_stands_high(root: Path) -> None:
    """The budgets are our own, in CSS pixels on a phone of 390."""
    measure = """function look(one, inside, win) {
      const top = (what) => { const e = inside.querySelector(what); return e && Math.round(e.getBoundingClientRect().top); };
      const end = (what) => { const e = inside.querySelector(what); return e && Math.round(e.getBoundingClientRect().bottom); };
      return { photo: top(".shown img"), work: top("#work"), price: end(".asked"), main: end("main"), bar: end(".masthead") };
    }"""
    pages = (RECIPE, HELD, SOAP, LONG_NAMED, "cure-shelf/index.html", f"class/{RECIPE}")
    recipe, held, soap, long_named, shelf, lesson = looked_at(root, [(page, 390) for page in pages], measure)
    assert all(one["photo"] <= 320 and one["work"] <= 1550 for one in (recipe, held)), (recipe, held)
    assert all(one["price"] <= 720 for one in (soap, long_named)), (soap, long_named)
    assert shelf["main"] <= 2300, shelf
    assert lesson["work"] <= 844, lesson
    asked = [("index.html", width) for width in (960, 1050, 1100)] + [("maker/classes/index.html", 960)]
    bars = [found["bar"] for found in looked_at(root, asked, measure)]
    assert max(bars) <= 100, ("one row", asked, bars)


CHOOSES = """
async function look(one, inside, win) {
  const shown = () => [...inside.querySelectorAll(".card")].filter((c) => c.checkVisibility()).map((c) => c.querySelector("a").textContent);
  const box = inside.querySelector(".choose"), clear = box.querySelector(".clear"), told = { all: shown() };
  const change = (field) => field.dispatchEvent(new win.Event("input", { bubbles: true }));
  const search = box.querySelector("input[type=search]");
  if (search) {
    search.value = "oat"; change(search);
    const words = [...inside.scripts].find((script) => script.src.includes("words-"));
    await new Promise((done) => { words.onload = done; });
    for (const words of ["oat drink", "QUARRY strata", "xyzzy", "calendula"]) {
      search.value = words; change(search);
      told[words] = shown();
    }
    told.none = inside.querySelector(".none").hidden;
  }
  clear.click(); told.cleared = shown();
  const of = (name, nth) => [...box.querySelectorAll(`[data-choice="${name}"]`)].at(nth);
  told.counted = true;
  for (const [name, nth] of [["free", 0], ["colour", -1], ["scent", -1]]) {
    const field = of(name, nth), count = Number(field.labels[0].querySelector(".note").textContent);
    field.click(); told[name] = shown(); clear.click();
    told.counted &&= told[name].length === count;
  }
  const oil = of("oil", 0); oil.selectedIndex = oil.options.length - 1; change(oil); told.oil = shown();
  told.said = inside.querySelector(".found").textContent; clear.click();
  told.reached = [...box.querySelectorAll("input, select, button, summary")].every((e) => e.tabIndex === 0);
  told.end = shown();
  return told;
}"""


def test_soaps_and_recipes_are_chosen_without_a_server(root: Path) -> None:
    book, shop = looked_at(root, [("index.html", 1280), ("shop/index.html", 1280)], CHOOSES)
    assert len(book["all"]) == 7 == len(shop["all"])
    assert book["oat drink"] == ["Quarry Strata"] and "Quarry Strata" in book["QUARRY strata"]
    assert book["xyzzy"] == [] and len(book["calendula"]) == 2
    for found in (book, shop):
        assert found["cleared"] == found["end"] == found["all"] and found["reached"]
        for choice in ("free", "colour", "scent", "oil"):
            assert 0 < len(found[choice]) < len(found["all"]), (choice, found)
        assert found["counted"], "each choice shows as many as it says"
        assert found["said"].startswith(f"{len(found['oil'])} of 7")


@pytest.mark.parametrize("page", [RECIPE, "recipes/bell-in-a-drainpipe/index.html"])
def test_a_recipe_prints_on_three_pages(root: Path, page: str) -> None:
    command = [*CHROMIUM, f"--user-data-dir={root / 'profile'}", "--no-pdf-header-footer",
               f"--print-to-pdf={root / 'printed.pdf'}", (root / page).as_uri()]  # fmt: skip
    subprocess.run(command, capture_output=True, timeout=120, check=True)
    printed = PdfReader(BytesIO((root / "printed.pdf").read_bytes()))
    words = " ".join(" ".join(sheet.extract_text() for sheet in printed.pages).split())
    assert len(printed.pages) <= 3
    for part in ("Work order", "Lye safety", "Plain water", "Sodium hydroxide", "Cover and cure"):
        assert part in words, part
    assert "On this page" not in words and "Ingredients" not in words
