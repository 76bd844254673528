"""Pages of the book's own, its logo, accent and footer: in the editions that they say, and read as all else is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from checks.books import GOOD, found, recipe
from saponary.assets import resources
from saponary.build.proof import Proof, prove
from saponary.outputs.compose import compose
from saponary.outputs.filling import BrokenTemplate
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PhotoSet
from support import PLAIN, write_book

LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><path d="M0 0L1 1"/><!-- secret --></svg>'
FILES = {
    "book.yaml": 'title: A book\nlook:\n  logo: mark.svg\n  accent: {light: "#123456", dark: "#abcdef"}\n'
    "  footer: By hand. [More](pages/about.md), [hidden](pages/hidden.md).\n",
    "photos/mark.svg": LOGO,
    "photos/bar.jpg": "",
    "recipes/tried.md": PLAIN.replace(
        "signed:", "steps:\n  - at: lye\n    say: Read [how](../pages/about.md) first.\nsigned:"
    )
    + "\nMore [there](../pages/about.md), or [not](../pages/hidden.md).\n",
    "pages/about.md": "---\ntitle: About <us>\nmenu: Us\norder: 2\neditions: [public, shop]\n---\n"
    "First. See [it](../recipes/tried.md) and [this](keeping.md).\n\n## More\n\n<!-- secret -->\n"
    '![a bar](../photos/bar.jpg "seen")\n',
    "pages/keeping.md": "---\ntitle: Keeping\norder: 1\neditions: [shop]\n---\n## Dry\n",
    "pages/hidden.md": "---\ntitle: Hidden\n---\nFor me.\n",
}


@cache
def proved() -> Proof:
    with TemporaryDirectory() as folder:
        return prove(write_book(Path(folder), FILES))


@cache
def made(edition: str) -> Mapping[str, bytes]:
    proof = proved()
    shot = PhotoSet(8, 6, (("image/jpeg", "photos/bar-8.jpg 8w"),), "photos/bar-8.jpg", "")
    whole = Unpublished(proof.book, proof.recipes, "1", "t", on=date(2026, 12, 1), photos={"bar.jpg": shot})
    return {o.path: o.data for o in compose(for_edition(whole, STANDARD[edition]), [resources.templates()])}


@pytest.mark.parametrize(
    ("edition", "pages"),
    [("public", ["about"]), ("shop", ["about", "keeping"]), ("class", []), ("maker", ["hidden"])],
)
def test_a_page_is_in_the_editions_that_it_says_and_else_the_makers(edition: str, pages: list[str]) -> None:
    site = made(edition)
    assert [path.split("/")[1] for path in sorted(site) if path.startswith("pages/")] == pages
    for path, data in site.items():
        if path.endswith(".html"):
            assert b"secret" not in data
            assert (b">Hidden<" in data or b"For me" in data) == (edition == "maker"), path


def test_the_menu_has_them_in_their_order() -> None:
    page = made("shop")["index.html"].decode()
    assert page.index('href="pages/keeping/index.html">Keeping') < page.index(
        'href="pages/about/index.html">Us'
    )


def test_its_text_leads_to_what_the_edition_has() -> None:
    page = made("public")["pages/about/index.html"].decode()
    assert "<h1>About &lt;us&gt;</h1>" in page and "<h2>More</h2>" in page
    assert 'href="../../recipes/tried/index.html">it</a> and this.' in page
    assert '<img src="../../photos/bar-8.jpg" width="8" height="6" alt="a bar" loading="lazy">' in page
    assert '<meta name="description" content="First.">' in page
    shop = made("shop")["pages/about/index.html"].decode()
    assert 'href="../../pages/keeping/index.html">this</a>' in shop
    recipe_page = made("public")["recipes/tried/index.html"].decode()
    assert 'href="../../pages/about/index.html">there</a>, or not.' in recipe_page
    bench = made("public")["recipes/tried/at-the-bench.html"].decode()
    assert 'href="../../pages/about/index.html">how</a> first.' in bench


@pytest.mark.parametrize("edition", sorted(STANDARD))
def test_logo_accent_and_footer_are_on_every_page(edition: str) -> None:
    site = made(edition)
    assert b"secret" not in site["logo.svg"] and site["logo.svg"].startswith(b"<svg")
    (style,) = [data for path, data in site.items() if path.startswith("assets/style-")]
    assert b"--accent: #123456" in style and b"--accent: #abcdef" in style
    for path, data in site.items():
        if path.endswith(".html") and "at-the-bench" not in path:
            assert b'logo.svg" width="72" height="36" alt=""' in data and b"By hand." in data, path


@pytest.mark.parametrize(
    ("files", "rule", "says", "hint"),
    [
        (
            {"pages/a.md": "---\ntitle: A\neditions: [pubic]\n---\n"},
            "editions",
            "no edition 'pubic'",
            "'public'",
        ),
        (
            {"pages/a.md": "---\ntitle: A\n---\n[x](b.md)\n"},
            "notes",
            "no page 'b' for this link",
            "did you mean 'a'?",
        ),
        ({"pages/a.md": "---\ntitle: A\n---\n[x](../recipes/tired.md)\n"}, "notes", "'tired'", "'tried'"),
        ({"pages/a.md": "---\ntitle: A\n---\nIt heals eczema.\n"}, "claims", "heals eczema", "waive"),
        ({"pages/a.md": "---\ntitle: A\nmenu: Heals eczema\n---\n"}, "claims", "Heals eczema", "waive"),
        (
            {"pages/a.md": "---\ntitle: A\n---\n![x](../photos/x.jpg)\n"},
            "photos",
            "photos/x.jpg",
            "no photos here",
        ),
        (
            {"pages/a.md": "---\ntitle: A\n---\n![](../photos/x.jpg)\n"},
            "photo-words",
            "no description",
            "brackets",
        ),
        ({"pages/a.md": "---\ntitel: A\n---\n"}, "schema", "titel", "title"),
        ({"pages/A b.md": "---\ntitle: A\n---\n"}, "reading", "cannot serve", "small letters"),
        ({"book.yaml": "look: {footer: It heals eczema.}\n"}, "claims", "heals eczema", "waive"),
        ({"book.yaml": "look: {footer: '[x](pages/a.md)'}\n"}, "notes", "no page 'a'", "no pages here"),
        ({"book.yaml": "about: See [x](recipes/tired.md).\n"}, "notes", "'tired'", "'tried'"),
        ({"book.yaml": "look: {logo: x.svg}\n"}, "photos", "no logo photos/x.svg", "no logos here"),
        ({"book.yaml": "look: {logo: x.svg}\n", "photos/x.svg": "x"}, "photos", "is not SVG", "plain SVG"),
    ],
)
def test_what_is_wrong_is_told(files: dict[str, str], rule: str, says: str, hint: str) -> None:
    told = found(recipe(GOOD, **files), rule)
    assert any(says in one.message and hint in one.hint for one in told), told
    assert all(
        one.place.file in files or one.place.file in ("recipes/tried.md", "photos/x.svg") for one in told
    )


def test_a_waiver_stands_in_the_page() -> None:
    page = "---\ntitle: A\nwaive: [{rule: claims, about: heals, because: the plant is called so}]\n---\nIt heals.\n"
    assert found(recipe(GOOD, **{"pages/a.md": page}), "claims") == []
    assert found(recipe(GOOD, **{"pages/a.md": page}), "waiver") == []


def test_a_broken_template_for_them_is_told_where(tmp_path: Path) -> None:
    (tmp_path / "own-page.html").write_text(
        "{% extends 'base.html' %}\n{% block content %}{{ titel }}{% endblock %}\n"
    )
    proof = proved()
    whole = Unpublished(proof.book, proof.recipes, "1", "t", on=date(2026, 12, 1))
    with pytest.raises(BrokenTemplate) as told:
        list(compose(for_edition(whole, STANDARD["public"]), [tmp_path, resources.templates()]))
    place, hint = told.value.finding.place, told.value.finding.hint
    assert (place.file, place.line) == ("templates/own-page.html", 2) and "'title'" in hint
