"""Parts of a sheet that may fill so many pages: set tighter, step by step, until they do.

In the HTML such a part has an `id`, `data-pages` (how many pages it may fill) and `data-steps` (how many
steps there are). What a step is, the style sheet says of `[data-step="1"]`, `[data-step="2"]`, and so on; a
part that fits has none. One that does not fit at the last step runs over.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any


def fitted(html: Any, **options: Any) -> Any:
    """A WeasyPrint document of `html`, laid out until its parts fit; `options` are those of `render`."""
    document = html.render(**options)
    while over := list(_over(html, document)):
        for part in over:
            part.set("data-step", str(_step(part) + 1))
        document = html.render(**options)
    return document


def _over(html: Any, document: Any) -> Iterator[Any]:
    """The parts that fill more pages than they may, and can be set tighter."""
    for part in html.etree_element.iter():
        if part.get("data-pages") is None or _step(part) >= int(part.get("data-steps")):
            continue
        if sum(part.get("id") in page.anchors for page in document.pages) > int(part.get("data-pages")):
            yield part


def _step(part: Any) -> int:
    return int(part.get("data-step", "0"))
