"""A part's HTML made ready to be set by itself: which page it opens on, and what its links lead to."""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import unescape
from typing import Any
from urllib.parse import quote

ELSEWHERE = "https://elsewhere.invalid/#"
"""Where links into other parts lead while a part is set. The name can never be looked up (RFC 2606)."""

_HREF = re.compile(r'href="#([^"]+)"')


def asked_for(html: str) -> frozenset[str]:
    """The names that links of a part may ask for."""
    return frozenset(unescape(found) for found in _HREF.findall(html))


def prepare(root: Any, *, left: bool, numbers: Mapping[str, int] | None) -> None:
    """Change a tree of HTML: it opens on a left page or on a right one; a link that leads out of it leads
    elsewhere, and each knows the number of its page where there are `numbers`.
    """
    root.set("data-side", "left" if left else "right")
    own = {one.get("id") for one in root.iter() if one.get("id")}
    for link in root.iter("a"):
        address = link.get("href") or ""
        name = address.removeprefix("#")
        if name == address:
            continue
        if numbers is not None and name in numbers:
            link.set("data-page", str(numbers[name]))
        if name not in own:
            link.set("href", ELSEWHERE + quote(name))
