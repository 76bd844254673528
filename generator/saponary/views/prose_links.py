"""Where the links and photos of a maker's text lead, from the page or the sheet that it stands on."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from urllib.parse import unquote

from saponary.reading.markdown import PAGES, PHOTOS, RECIPES, in_book, named
from saponary.views import links
from saponary.views.site import PhotoSet

_SCHEME = re.compile(r"[a-z][a-z0-9+.\-]*:", re.IGNORECASE)
_ALLOWED = ("http:", "https:", "mailto:")


@dataclass(frozen=True)
class Links:
    """Where the links of a text lead. `published` are the recipes that it may lead to by their file;
    `up` leads from the page to the top of the site; `folder` is that of the book in which the text stands.
    """

    published: frozenset[str] = frozenset()
    up: str = ""
    folder: str = "recipes"
    pages: frozenset[str] = frozenset()
    """The pages of the book's own that it may lead to by their file."""

    def lead(self, address: str) -> str | None:
        """The address a link is given, or None for none: its words alone are left."""
        path = in_book(address, self.folder)
        if path is None:
            return self._other(address)
        _, mark, rest = address.partition("#")
        slug, page = named(path, RECIPES), named(path, PAGES)
        if slug in self.published:
            return self._page(slug, mark + rest)
        return self.up + links.own_page(page) + mark + rest if page in self.pages else None

    def _page(self, slug: str, rest: str) -> str:
        return self.up + links.recipe_page(slug) + rest

    def _other(self, address: str) -> str | None:
        return address

    def picture(self, address: str, alt: str, photos: Mapping[str, PhotoSet]) -> str | None:
        """The photo at an address as HTML, '' for one that may not be shown; None for what is no photo of the book."""
        path = in_book(address, self.folder)
        if path is None or not path.startswith(PHOTOS):
            return None
        found = photos.get(path.removeprefix(PHOTOS))
        return "" if found is None else self._photo(found, alt)

    def _photo(self, found: PhotoSet, alt: str) -> str:
        sources = "".join(
            f'<source type="{kind}" srcset="{escape(led(srcset, self.up))}" sizes="{_SIZES}">\n'
            for kind, srcset in found.sources
        )
        return f"<picture>\n{sources}{self._image(found, self.up + found.src, alt)}\n</picture>"

    def _image(self, found: PhotoSet, src: str, alt: str) -> str:
        size = f'width="{found.width}" height="{found.height}"'
        return f'<img src="{escape(src)}" {size} alt="{escape(alt)}" loading="lazy">'


NOWHERE = Links()
"""To no recipe, from the top of the site."""

_SIZES = "(min-width: 60em) 33rem, 92vw"


def led(srcset: str, up: str) -> str:
    """A `srcset` of addresses from the top of the site, led from a page."""
    return ", ".join(up + one.strip() for one in srcset.split(","))


@dataclass(frozen=True)
class PaperLinks(Links):
    """Links as paper can hold them: to a recipe of the same paper, or to the web; others are text."""

    def _page(self, slug: str, rest: str) -> str:
        return f"#recipe-{slug}"

    def _other(self, address: str) -> str | None:
        return address if address.lower().startswith(_ALLOWED) else None

    def _photo(self, found: PhotoSet, alt: str) -> str:
        """The widest, for print."""
        widest = found.sources[-1][1].split(", ")[-1].split()[0] if found.sources else found.src
        return self._image(found, self.up + widest, alt)


def safe_link(url: str) -> bool:
    """Web, mail, or a place inside the site; nothing that runs, and no other host without its scheme."""
    tidy = unquote(url).strip().lstrip("\x00\x01\x02\x03")
    found = _SCHEME.match(re.sub(r"[\x00-\x20]", "", tidy))
    return found[0].lower() in _ALLOWED if found else not tidy.startswith(("//", "\\", "/\\"))
