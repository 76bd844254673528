"""A page may fetch and run what it holds, by Content Security Policy Level 3 (W3C), and nothing else."""

from __future__ import annotations

import base64
import hashlib
import shutil
import subprocess
from pathlib import Path

import pytest

from saponary.outputs.policy import with_policy
from support import write_book

NOTHING = "default-src 'none'; form-action 'none'; base-uri 'none'"


def sha(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def page(head: str = "", body: str = "") -> str:
    """One that no search engine is to list."""
    robots = '<meta name="robots" content="noindex">'
    return f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n{robots}{head}</head>\n<body>{body}</body></html>'


def policy(html: str, style: str = "") -> str:
    made = with_policy(html, style)
    (said,) = (line for line in made.split("\n") if "Content-Security-Policy" in line)
    return said.partition('content="')[2].removesuffix('">').replace("&#x27;", "'").replace("&amp;", "&")


@pytest.mark.parametrize(
    ("head", "body", "allowed"),
    [
        ("", "<p>words</p>", ""),
        ('<link rel="stylesheet" href="../a.css">', "", "style-src 'self'; "),
        ("<style>p { color: red }</style>", "", f"style-src {sha('p { color: red }')}; "),
        ("", '<p style="top: 1mm">', f"style-src-attr 'unsafe-hashes' {sha('top: 1mm')}; "),
        ('<script src="a.js" defer></script>', "", "script-src 'self'; "),
        ("<script>run()</script>", "", f"script-src {sha('run()')}; "),
        ('<script type="application/ld+json">[1]</script>', "", f"script-src {sha('[1]')}; "),
        ('<script type="application/json">{"a": 1}</script>', "", ""),
        ('<script src="a.js" data-needs="worker connect"></script>', "", "script-src 'self'; connect-src 'self'; worker-src 'self'; "),
        ("", '<img src="a.jpg" alt="" srcset="a.jpg 1w, b.jpg 2w">', "img-src 'self'; "),
        ("", '<picture><source srcset="a.avif 1w" type="image/avif"></picture>', "img-src 'self'; "),
        ("", '<svg><image href="data:image/png;base64,AA"/></svg>', "img-src data:; "),
        ('<link rel="icon" href="i.svg"><link rel="manifest" href="m">', "", "img-src 'self'; manifest-src 'self'; "),
        ('<link rel="preload" as="font" href="f.woff2" crossorigin>', "", "font-src 'self'; "),
        ('<link rel="canonical alternate" href="https://soap.example/">', "", ""),
        ("", '<img src="https://pictures.example/a.jpg" alt="">', "img-src https://pictures.example; "),
        ("", '<IMG ALT="Öl „Weiß“" SRC="a.jpg"><P Style = "top: 1MM">', f"style-src-attr 'unsafe-hashes' {sha('top: 1MM')}; img-src 'self'; "),
        ("", '<p data-style="top: 9mm" title="İ" style="top: 1mm">', f"style-src-attr 'unsafe-hashes' {sha('top: 1mm')}; "),
        ("", '<p title="a &lt; b">its style = plain</p>', ""),
    ],
)  # fmt: skip
def test_a_page_may_use_what_it_holds(head: str, body: str, allowed: str) -> None:
    assert policy(page(head, body)) == NOTHING.replace("'none'; ", f"'none'; {allowed}", 1)


def test_what_the_style_sheet_fetches_is_the_pages() -> None:
    style = '@font-face { src: url("serif.woff2") } p { background: url(dots.svg) } q { fill: url(#here) }'
    linked = page('<link rel="stylesheet" href="a.css">')
    assert "img-src 'self'; font-src 'self'; " in policy(linked, style)
    assert "font-src" not in policy(page(), style)


def test_a_page_that_may_be_listed_lets_robots_txt_be_asked_for() -> None:
    """Source: RFC 9309, 2.3, robots.txt at the top of a site. Lighthouse 12 fetches it within the page, by its policy."""
    listed = page().replace('content="noindex"', 'content="max-image-preview:large"')
    assert policy(listed) == NOTHING.replace("'none'; ", "'none'; connect-src 'self'; ", 1)
    assert policy(page()) == NOTHING


def test_a_form_may_be_sent_where_it_says() -> None:
    assert policy(page(body='<form action="https://list.example/join">')).endswith(
        "form-action https://list.example; base-uri 'none'"
    )


def test_the_policy_stands_before_all_it_holds_for() -> None:
    made = with_policy(page("<style>p {}</style>"))
    assert made.index("charset") < made.index("Content-Security-Policy") < made.index("<style>")
    bare = with_policy("<html><head><title>x</title></head><p>y")
    assert bare.startswith('<html><head><meta http-equiv="Content-Security-Policy"')
    own = with_policy(made)
    assert own == made, "a page that has its own keeps it"
    assert with_policy("only words") == "only words"


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs Chromium")
def test_a_browser_runs_the_pages_own_things_and_no_others(tmp_path: Path) -> None:
    """From a file, as a maker opens it: style, script and picture of the page work; what was put in later does not."""
    write_book(
        tmp_path,
        {
            "a.css": "p { color: rgb(1, 2, 3) }",
            "a.js": "addEventListener('load', () => document.title = [getComputedStyle(p).color, getComputedStyle(q).top,"
            " i.naturalWidth, window.injected].join(' '))",
            "i.svg": '<svg xmlns="http://www.w3.org/2000/svg" width="7" height="7"/>',
        },
    )
    made = with_policy(
        page(
            '<link rel="stylesheet" href="a.css"><script src="a.js" defer></script>',
            '<p id="p">x</p><i id="q" style="position: absolute; top: 3px">y</i><img id="i" src="i.svg" alt="">',
        )
    )
    injected = made.replace(
        "</body>", "<script>injected = 1</script><b style='top: 1px' onclick='x()'></b></body>"
    )
    (tmp_path / "index.html").write_text(injected)
    command = [
        "chromium",
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--dump-dom",
        (tmp_path / "index.html").as_uri(),
    ]
    shown = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert "<title>rgb(1, 2, 3) 3px 7 </title>" in shown
