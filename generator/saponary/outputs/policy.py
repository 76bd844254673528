"""The Content-Security-Policy of a page: what it uses may be fetched and run, and nothing else.

It is read off the finished page, so that a template says nothing of it: what stands in the page itself is
named by its SHA-256, a file of the site is `'self'`, another host is named. A script says in `data-needs`
what it asks for beyond that (`connect`, `worker`), since nobody can tell from outside. A page that search
engines may list lets its own site be asked: who checks such a page asks from inside it for `robots.txt`.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator
from functools import lru_cache
from html import escape
from html.parser import HTMLParser
from urllib.parse import urlsplit

_ADDRESSED = {
    ("img", "src"): "img",
    ("image", "href"): "img",
    ("image", "xlink:href"): "img",
    ("feimage", "href"): "img",
    ("input", "src"): "img",
    ("video", "poster"): "img",
    ("video", "src"): "media",
    ("audio", "src"): "media",
    ("track", "src"): "media",
    ("iframe", "src"): "frame",
    ("object", "data"): "object",
    ("embed", "src"): "object",
    ("script", "src"): "script",
}
"""Which kind of thing an element's attribute fetches."""

_LINKED = {"stylesheet": "style", "icon": "img", "apple-touch-icon": "img", "manifest": "manifest"}
_PRELOADED = {"font": "font", "style": "style", "script": "script", "image": "img", "fetch": "connect"}
_SCRIPTS = frozenset({"", "module", "text/javascript", "application/javascript", "application/ld+json"})
"""Types of a script that is run, and of the data that checkers hold a policy to as if it were; others are data."""
_URL = re.compile(r"url\(\s*['\"]?([^'\")]+)")
_FONT = re.compile(r"\.(?:woff2?|ttf|otf)(?:[?#]|$)")
_ORDER = ("style", "script", "img", "font", "media", "frame", "object", "manifest", "connect", "worker")
_NEEDS = frozenset({"connect", "worker"})


def with_policy(page: str, style_sheet: str = "") -> str:
    """A page with its policy in its head; one that has a policy of its own stays as it is.

    `style_sheet` is what its style sheet says, whose fonts and pictures are fetched too.
    """
    seen = _seen(list(_telling(page)))
    if seen.has_policy or not seen.is_page:
        return page
    if "'self'" in seen.sources.get("style", ()):
        seen.of_style(style_sheet)
    meta = f'<meta http-equiv="Content-Security-Policy" content="{escape(_policy(seen))}">\n'
    for before in (_CHARSET, _HEAD):
        found = before.search(page)
        if found:
            return f"{page[: found.end()]}{meta}{page[found.end() :]}"
    return page


def _seen(tags: list[str]) -> _Seen:
    """What tags use, in their order. Most of them stand on every page of a site, and are read once."""
    whole = _Seen()
    for tag in tags:
        one = _alone(tag) if len(tag) < _SHORT else _read(tag)
        if one.is_open:
            # What follows an element that is not closed is its text.
            return _read("".join(tags))
        whole.add(one)
    return whole


_SHORT = 2000


@lru_cache(maxsize=2048)
def _alone(tag: str) -> _Seen:
    return _read(tag)


def _read(text: str) -> _Seen:
    seen = _Seen()
    seen.feed(text)
    seen.close()
    return seen


_PARTS = rb"(?:[^>\"']|\"[^\"]*\"|'[^']*')*"
_REST = re.compile(_PARTS + b">")
_NAMES = ("head", "link", "form", "source", *sorted({tag for tag, _ in _ADDRESSED}))
_BEGIN = "".join(sorted({name[0] for name in (*_NAMES, "meta", "style")})).encode()
_SAYS = rb"(?:http-equiv|name\s*=\s*[\"']?robots)"
_ELEMENT = re.compile(
    rb"<(?=[%b])"  # most elements end here
    rb"(?:(script|style)\b.*?</\1\s*>|meta\b(?=%b?%b)%b>|(?:%b)\b%b>)"
    % (_BEGIN, _PARTS, _SAYS, _PARTS, "|".join(_NAMES).encode(), _PARTS),
    re.DOTALL,
)
_STYLE = re.compile(rb"style\s*=")


def _telling(page: str) -> Iterator[str]:
    """The tags that say what a page uses: reading these alone takes a tenth of the time.

    They are looked for in bytes, all letters of ASCII small: a search that minds no case takes three times as long.
    """
    data = page.encode("utf-8", "surrogatepass")
    small = data.lower()
    found = [one.span() for one in _ELEMENT.finditer(small)]
    for one in _STYLE.finditer(small):
        start, rest = small.rfind(b"<", 0, one.start()), _REST.match(small, one.end())
        is_attribute = (
            small[one.start() - 1 : one.start()].isspace() and small[start + 1 : start + 2].isalpha()
        )
        if start >= 0 and rest and is_attribute and small.find(b">", start, one.start()) < 0:
            found.append((start, rest.end()))
    last = 0
    for start, end in sorted(found):
        if start >= last:
            yield data[start:end].decode("utf-8", "surrogatepass")
            last = end


_CHARSET = re.compile(r"<meta\s+charset=[^>]*>\n?", re.IGNORECASE)
_HEAD = re.compile(r"<head(?:\s[^>]*)?>\n?", re.IGNORECASE)


def _policy(seen: _Seen) -> str:
    parts = ["default-src 'none'"]
    if not seen.is_hidden:
        seen.sources.setdefault("connect", []).append("'self'")
    for kind in _ORDER:
        if kind in seen.sources:
            parts.append(" ".join([f"{kind}-src", *dict.fromkeys(seen.sources[kind])]))
        if kind == "style" and seen.attributes:
            parts.append(" ".join(["style-src-attr", "'unsafe-hashes'", *dict.fromkeys(seen.attributes)]))
    forms = " ".join(dict.fromkeys(seen.sources.get("form", ["'none'"])))
    return "; ".join([*parts, f"form-action {forms}", "base-uri 'none'"])


class _Seen(HTMLParser):
    """What a page fetches and runs."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.sources: dict[str, list[str]] = {}
        self.attributes: list[str] = []
        self.has_policy = self.is_page = self.is_hidden = False
        self._inside = ""
        self._text: list[str] = []

    @property
    def is_open(self) -> bool:
        """Whether an element whose text is no markup was begun and not ended."""
        return self.cdata_elem is not None or bool(self._inside)

    def add(self, other: _Seen) -> None:
        """What comes after it in the page."""
        for kind, found in other.sources.items():
            self.sources.setdefault(kind, []).extend(found)
        self.attributes += other.attributes
        self.has_policy = self.has_policy or other.has_policy
        self.is_page = self.is_page or other.is_page
        self.is_hidden = self.is_hidden or other.is_hidden

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.is_page = self.is_page or tag == "head"
        if given.get("http-equiv", "").lower() == "content-security-policy":
            self.has_policy = True
        if given.get("name", "").lower() == "robots" and "noindex" in given.get("content", "").lower():
            self.is_hidden = True
        for name, value in given.items():
            kind = _ADDRESSED.get((tag, name))
            if kind:
                self._add(kind, _source(value))
        if "style" in given:
            self.attributes.append(_hashed(given["style"]))
            self.of_style(given["style"])
        for address in _of_set(given):
            self._add("img", _source(address))
        self._special(tag, given)

    handle_startendtag = handle_starttag

    def _special(self, tag: str, given: dict[str, str]) -> None:
        if tag == "link":
            self._link(given)
        elif tag == "form":
            self._add("form", _source(given.get("action", "")))
        elif tag == "style" or (tag == "script" and "src" not in given and _is_held(given)):
            self._inside, self._text = tag, []
        if tag == "script":
            for kind in _NEEDS.intersection(given.get("data-needs", "").split()):
                self._add(kind, "'self'")

    def _link(self, given: dict[str, str]) -> None:
        for rel in given.get("rel", "").lower().split():
            kind = (
                _PRELOADED.get(given.get("as", ""))
                if rel in ("preload", "modulepreload")
                else _LINKED.get(rel)
            )
            if kind:
                self._add(kind, _source(given.get("href", "")))

    def handle_data(self, data: str) -> None:
        if self._inside:
            self._text.append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag == self._inside:
            text = "".join(self._text)
            self._add(tag, _hashed(text))
            if tag == "style":
                self.of_style(text)
            self._inside = ""

    def of_style(self, text: str) -> None:
        """Fonts and pictures that a style fetches."""
        for kind, source in _fetched(text):
            self._add(kind, source)

    def _add(self, kind: str, source: str) -> None:
        self.sources.setdefault(kind, []).append(source)


@lru_cache(maxsize=16)
def _fetched(style: str) -> tuple[tuple[str, str], ...]:
    """The kinds of things that a style fetches, and where from, in its order."""
    found = [address for address in _URL.findall(style) if not address.startswith("#")]
    return tuple(("font" if _FONT.search(one) else "img", _source(one)) for one in found)


def _is_held(given: dict[str, str]) -> bool:
    return given.get("type", "").lower() in _SCRIPTS


def _of_set(given: dict[str, str]) -> Iterator[str]:
    for name in ("srcset", "imagesrcset"):
        for one in given.get(name, "").split(","):
            if one.strip():
                yield one.split()[0]


def _source(address: str) -> str:
    """Where an address leads, as a policy names it."""
    parts = urlsplit(address.strip())
    if parts.netloc:
        return f"{parts.scheme}://{parts.netloc}" if parts.scheme else parts.netloc
    return f"{parts.scheme}:" if parts.scheme else "'self'"


def _hashed(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode('utf-8')).digest()).decode()}'"
