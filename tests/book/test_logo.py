"""A logo is made anew of its shapes: nothing of what a drawing program left, nothing that runs or fetches."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from saponary.book.logo import LogoFault, logo_of

OPEN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"{}>{}</svg>'


def test_shapes_are_kept_and_all_else_goes() -> None:
    drawn = OPEN.format(
        ' xmlns:ink="http://ink.example" ink:file="/home/secret/mark.svg" onload="secret()" width="9"',
        "<!-- secret --><title>secret</title><metadata>secret</metadata><ink:view>secret</ink:view>"
        '<g style="fill:#123456; -x: secret; stroke:url(http://secret)" class="secret">'
        '<path d="M0 0L1 1" fill="url(#a)" onclick="secret()"/></g>'
        '<defs><linearGradient id="a"><stop offset="0" stop-color="#fff"/></linearGradient></defs>',
    )
    logo = logo_of(drawn)
    assert (logo.width, logo.height) == (20, 10)
    assert "secret" not in logo.svg and "http://ink" not in logo.svg
    top = ElementTree.fromstring(logo.svg)
    assert [e.tag.rpartition("}")[2] for e in top.iter()] == [
        "svg",
        "g",
        "path",
        "defs",
        "linearGradient",
        "stop",
    ]
    assert top[0].attrib == {"fill": "#123456"} and top[0][0].attrib == {"d": "M0 0L1 1", "fill": "url(#a)"}


@pytest.mark.parametrize(
    ("text", "says", "line"),
    [
        ("<svg", "is not SVG", 1),
        ("\n<html/>", "is not SVG", 1),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "does not say its size", 1),
        (OPEN.format("", "\n<g/>\n<script>x</script>"), "holds no 'script'", 3),
        (OPEN.format("", "<image href='https://x'/>"), "holds no 'image'", 1),
        (OPEN.format("", "<text>x</text>"), "holds no 'text'", 1),
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + OPEN.format("", ""), "document type", 1),
        (OPEN.format("", "<g>" * 60 + "</g>" * 60), "holds no 'g'", 1),
    ],
)
def test_what_is_none_is_told(text: str, says: str, line: int) -> None:
    with pytest.raises(LogoFault) as told:
        logo_of(text)
    assert says in told.value.message and told.value.hint and told.value.line == line
