"""The navigation is drawn from the files that a site really has."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from composed import composed
from saponary.messages.message import Message
from saponary.outputs import compose
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from support import proof_of


def led(edition: str) -> list[str]:
    """Where the first page's navigation leads."""
    proof = proof_of("demo")
    site = for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD[edition])
    files = composed(site)
    nav = re.search(r"<nav.*?</nav>", files["index.html"].decode(), re.S)
    assert nav is not None
    led = [to for to in re.findall(r'href="([^"]+)"', nav[0]) if not to.startswith("mailto:")]
    assert set(led) <= files.keys()
    return led


@pytest.mark.parametrize("edition", sorted(STANDARD))
def test_the_navigation_leads_to_pages_of_this_edition_alone(edition: str) -> None:
    shows = STANDARD[edition].shows
    found = led(edition)
    assert found[0] == "index.html"
    assert ("lots/index.html" in found) == ("batches" in shows)
    assert ("ingredients/index.html" in found) == ("work" in shows)


@pytest.mark.parametrize("there", [True, False])
def test_a_page_that_a_book_lacks_has_no_link(monkeypatch: pytest.MonkeyPatch, there: bool) -> None:
    def render(context: PageContext) -> Iterator[SiteFile]:
        if there:
            yield SiteFile("moulds/index.html", lambda: b"", ())

    kind = PageKind("moulds", render, nav=NavEntry(Message("nav.glossary"), "moulds/index.html"))
    monkeypatch.setattr(compose, "KINDS", (*compose.KINDS, kind))
    assert ("moulds/index.html" in led("public")) == there
