"""A part's HTML before it is set by itself."""

from __future__ import annotations

from xml.etree import ElementTree

from saponary.outputs.grafted.prepared import ELSEWHERE, asked_for, prepare

HTML = (
    '<html><body><h1 id="here">Here</h1><a href="#here">here</a><a href="#there &amp; then">there</a>'
    '<a href="https://example.org/#x">away</a><a>nowhere</a></body></html>'
)


def links(numbers: dict[str, int] | None) -> list[tuple[str | None, str | None]]:
    root = ElementTree.fromstring(HTML)
    prepare(root, left=True, numbers=numbers)
    assert root.get("data-side") == "left"
    return [(link.get("href"), link.get("data-page")) for link in root.iter("a")]


def test_a_link_that_leads_out_of_the_part_leads_elsewhere() -> None:
    assert links(None) == [
        ("#here", None),
        (f"{ELSEWHERE}there%20%26%20then", None),
        ("https://example.org/#x", None),
        (None, None),
    ]


def test_links_know_their_pages_where_there_are_numbers() -> None:
    assert [page for _, page in links({"here": 3, "there & then": 12, "more": 1})] == ["3", "12", None, None]


def test_what_a_part_may_ask_for() -> None:
    assert asked_for(HTML) == {"here", "there & then"}
