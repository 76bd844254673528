"""Harnesses of what is planted in every text field of the schema: comments that no edition shows, and scripts that no
browser runs.
"""

from __future__ import annotations

import html
import random
import re
import shutil
import subprocess
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

from composed import composed, drawings
from harnesses.harness import Harness, Score
from planted import COMMENT, Planter
from planted_book import planted_book, said
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from support import write_book

SPELLINGS = (
    "<!-- {} -->", "<!--{}-->", "<!--- {} --->", "<!-- a > {} -->", "<!-- a -- {} -->", "<!-- <!-- {} -->", "<!-- <b>{}</b> -->",
    "<!-- `{}` -->", "<!-- [{}](a.md) -->", "<!-- *a* {} -->", "<!-- a --><!-- {} -->", "*a <!-- {} --> b*", "<!-- {{lye}} {} -->",
    "\u200b<!--\u00a0{}\u00a0-->", "<!-- {} --> <!-- a -->",
)  # fmt: skip
"""A comment as it may be written beside a text."""
RAN = "zqran"
_DO = f"new Image().src='/{RAN}'"
SCRIPTS = (
    f"<script>{_DO}</script>", f"\"><script>{_DO}</script>", f"'><img src=x onerror=\"{_DO}\">", f"<svg onload=\"{_DO}\">",
    f"</title><script>{_DO}</script>", f"</style><script>{_DO}</script>", f"</script><script>{_DO}</script>", f"]]><script>{_DO}</script>",
    f"\" onmouseover=\"{_DO}\" autofocus onfocus=\"{_DO}\" x=\"", f"<iframe srcdoc=\"<script>parent.{_DO}</script>\">",
    f"<details open ontoggle=\"{_DO}\">", f"&lt;script&gt;{_DO}&lt;/script&gt;", f"\u2028<script>{_DO}</script>", f"<!--><script>{_DO}</script>",
    f"{{{{ ''.__class__ }}}}{{% raw %}}<script>{_DO}</script>", f"<math><mtext><img src=x onerror=\"{_DO}\"></mtext></math>",
    f"<style>@import '/{RAN}';</style>", f"<link rel=stylesheet href=/{RAN}>", f"<meta http-equiv=refresh content='0;url=/{RAN}'>",
    f"![a](/{RAN})", f"<object data=/{RAN}></object>", f"<base href=/{RAN}/>",
)  # fmt: skip
"""What would ask this server for one address, if a browser took it for more than text."""
_POLICY = re.compile(r"<meta http-equiv=\"?Content-Security-Policy\"?[^>]*>", re.IGNORECASE)


class Beside(Planter):
    """Plants a marker with something of one's own beside it."""

    def __init__(self, beside: str) -> None:
        super().__init__()
        self._beside = beside

    def _marker(self, path: str, way: object) -> str:
        super()._marker(path, way)  # type: ignore[arg-type]
        return f"{self.planted[-1].text} {self._beside}"


def comments(folder: Path, chance: random.Random, tries: int) -> Score:
    """One spelling of a comment in every text, and one edition, its PDFs as composed too: a try."""
    score = Score()
    every = [(spelling, edition) for spelling in SPELLINGS for edition in sorted(STANDARD)]
    made: dict[str, Unpublished] = {}
    for spelling, edition in [every[0], *chance.sample(every[1:], len(every) - 1)][:tries]:
        if spelling not in made:
            beside = spelling.replace("{{", "\0").replace("{}", COMMENT).replace("\0", "{").replace("}}", "}")
            made[spelling] = planted_book(folder / str(len(made)), Beside(beside))
        shown = said(made[spelling], edition)
        at = shown.find(COMMENT)
        score.count(None if at < 0 else f"{edition} {spelling!r}: {shown[max(0, at - 120) : at + 20]!r}")
    return score


class _Asked(SimpleHTTPRequestHandler):
    """Serves a folder and notes what is asked for."""

    asked: list[str]

    def __init__(self, *given: object, asked: list[str], **named: object) -> None:
        self.asked = asked
        super().__init__(*given, **named)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        self.asked.append(self.path)
        super().do_GET()

    def log_message(self, format: str, *args: object) -> None:
        """Nothing."""


@contextmanager
def served(folder: Path, asked: list[str]) -> Iterator[str]:
    """A folder, served to this machine; its address."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Asked, directory=str(folder), asked=asked))
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


def _without_policy(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """The files with no policy in any page, so that escaping alone is tried."""
    return {
        name: _POLICY.sub("", data.decode()).encode() if name.endswith(".html") else data
        for name, data in files.items()
    }


def browsed(folder: Path, files: Mapping[str, bytes]) -> tuple[list[str], int]:
    """What a browser asks for that opens every page and drawing, each in a frame; and how many there are."""
    pages = sorted(name for name in files if name.endswith((".html", ".svg")))
    frames = "".join(f'<iframe src="{html.escape(name)}"></iframe>' for name in pages)
    write_book(folder, {**_without_policy(files), "frames.html": f"<!doctype html><body>{frames}"})
    asked: list[str] = []
    with served(folder, asked) as address:
        command = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--timeout=20000", "--dump-dom"]
        subprocess.run([*command, f"{address}frames.html"], capture_output=True, timeout=180, check=True)
    return asked, len(pages)


def scripts(folder: Path, chance: random.Random, tries: int) -> Score:
    """One spelling of a script after another in every text; a try is a page or drawing of an edition, opened in Chromium."""
    score = Score()
    if shutil.which("chromium") is None:
        return score
    for number in range(tries):
        beside = SCRIPTS[number % len(SCRIPTS)]
        for edition in sorted(STANDARD) if tries > 1 else ("maker",):
            whole = planted_book(folder / f"book-{number}-{edition}", Beside(beside))
            site = for_edition(whole, STANDARD[edition])
            files = composed(site, drawn=drawings(site))
            asked, pages = browsed(folder / f"site-{number}-{edition}", files)
            ran = [
                path for path in asked if path.startswith(f"/{RAN}")
            ]  # an address made of a lot may hold it
            opened = len(
                {path.lstrip("/") for path in asked} & {n for n in files if n.endswith((".html", ".svg"))}
            )
            for _ in range(pages):
                score.count(None)
            if ran or opened < pages:
                score.wrong += 1
                score.faults.append(f"{edition}: {len(ran)} ran of {beside!r}; {opened} of {pages} opened")
    return score


HARNESSES = (
    Harness("comments in every text field", comments, len(SPELLINGS) * len(STANDARD), 1),
    Harness("scripts in every text field, in a browser without the page's policy", scripts, len(SCRIPTS), 1),
)
