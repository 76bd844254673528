"""Parts of a sheet that may fill so many pages: set tighter, step by step, until they do.

In the HTML such a part begins a page and has an `id`, `data-pages` (how many pages it may fill) and
`data-steps` (how many steps there are). What a step is, the style sheet says of `[data-step="1"]`,
`[data-step="2"]`, and so on; a part that fits has none. One that does not fit at the last step runs over.
From the step that `data-overleaf` names, where a part has that, it may fill the two pages of the next sheet too.
The steps of a part of a long document are tried with that part alone, so that the whole is laid out twice.
A short one is laid out whole at each step, which takes less than a part and then the whole.
"""

from __future__ import annotations

from copy import copy, deepcopy
from typing import Any, cast

from saponary.outputs.pdf_columns import set_columns

_FEW = 8
"""Pages of a document that is laid out whole at each step."""


def fitted(html: Any, **options: Any) -> Any:
    """A WeasyPrint document of `html`, in which parts that ran over are set tighter; `options` are those of
    its method `render`.
    """
    parts = [part for part in html.etree_element.iter() if part.get("data-pages") is not None]
    document = _set_out(html).render(**options)
    over = [part for part in parts if _runs_over(part, document)]
    if not over:
        return document
    if len(document.pages) <= _FEW:
        return _as_a_whole(html, document, over, options)
    for part in over:
        while _tighter(part):
            if not _runs_over(part, _set_out(html, part).render(**options)):
                break
    return _set_out(html).render(**options)


def _as_a_whole(html: Any, document: Any, over: list[Any], options: dict[str, Any]) -> Any:
    """The document with all that runs over a step tighter, until nothing does or no step is left."""
    while over := [part for part in over if _tighter(part)]:
        document = _set_out(html).render(**options)
        over = [part for part in over if _runs_over(part, document)]
    return document


def _tighter(part: Any) -> bool:
    """Go to the next step of a part; false where it stands at its last."""
    step = int(part.get("data-step") or 0)
    if step >= int(part.get("data-steps")):
        return False
    part.set("data-step", str(step + 1))
    return True


def _runs_over(part: Any, document: Any) -> bool:
    return sum(part.get("id") in page.anchors for page in document.pages) > _most_pages(part)


def _most_pages(part: Any) -> int:
    overleaf = part.get("data-overleaf")
    step = int(part.get("data-step") or 0)
    return int(part.get("data-pages")) + (2 if overleaf is not None and step >= int(overleaf) else 0)


def _set_out(html: Any, alone: Any | None = None) -> Any:
    """The same sheet with its columns parted, at the steps at which its parts stand. Of `alone`, where it is
    given, nothing else is in the body but what that part lies in.
    """
    made = copy(html)
    root = made.etree_element = deepcopy(html.etree_element)
    set_columns(root)
    if alone is not None:
        _prune(root.find("body"), alone.get("id"))
    wrapper = cast("Any", type(html.wrapper_element))
    made.wrapper_element = wrapper.from_html_root(root, content_language=None)
    return made


def _prune(element: Any, wanted: str) -> bool:
    """Take all out of an element that neither is the one with the ID `wanted` nor has it inside; false where
    nothing is left.
    """
    if element.get("id") == wanted:
        return True
    for child in list(element):
        if not _prune(child, wanted):
            element.remove(child)
    return len(element) > 0
