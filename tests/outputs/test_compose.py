"""The navigation is drawn from the files that a site really has."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from composed import composed
from saponary.assets import resources
from saponary.messages.message import Message
from saponary.outputs import compose
from saponary.outputs.compose import composition
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import SiteInput
from support import proof_of


def site_of(edition: str) -> SiteInput:
    proof = proof_of("demo")
    return for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD[edition])


def led(edition: str) -> list[str]:
    """Where the first page's navigation leads."""
    files = composed(site_of(edition))
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


@pytest.mark.parametrize("edition", STANDARD)
def test_a_file_is_found_by_its_path_as_it_is_among_all(edition: str) -> None:
    made = composition(site_of(edition), (resources.templates(),))
    assert [found.path for file in made.files if (found := made.file(file.path))] == [
        f.path for f in made.files
    ]
    assert all(file.recipe is None or file.recipe in file.path.split("/") for file in made.files)
    assert made.file("recipes/no-such-recipe/index.html") is None
