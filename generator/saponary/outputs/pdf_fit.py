"""Parts of a sheet that may fill so many pages: set tighter, step by step, until they do.

In the HTML such a part begins a page and has an `id`, `data-pages` (how many pages it may fill) and
`data-steps` (how many steps there are). What a step is, the style sheet says of `[data-step="1"]`,
`[data-step="2"]`, and so on; a part that fits has none. One that does not fit at the last step runs over.
From the step that `data-overleaf` names, where a part has that, it may fill the two pages of the next sheet too.
The steps of a part of a long document are tried with that part alone, so that the whole is laid out twice.
A short one is laid out whole at each step, which takes less than a part and then the whole.
"""

from __future__ import annotations

from copy import copy
from typing import Any, cast

from saponary.outputs.pdf_columns import set_columns

_FEW = 8
"""Pages of a document that is laid out whole at each step."""


def fitted(html: Any, **options: Any) -> Any:
    """A WeasyPrint document of `html`, in which parts that ran over are set tighter; `options` are those of
    its method `render`.
    """
    set_columns(html.etree_element)
    document = html.render(**options)
    over = _over(html, document)
    if not over:
        return document
    if len(document.pages) <= _FEW:
        return _as_a_whole(html, document, over, options)
    parents = {child: parent for parent in html.etree_element.iter() for child in parent}
    for part in over:
        alone = _alone(html, part, parents)
        while _tighter(part):
            if not _runs_over(part, alone.render(**options)):
                break
    return html.render(**options)


def _as_a_whole(html: Any, document: Any, over: list[Any], options: dict[str, Any]) -> Any:
    """The document with all that runs over a step tighter, until nothing does or no step is left."""
    while over := [part for part in over if _tighter(part)]:
        document = html.render(**options)
        over = [part for part in over if _runs_over(part, document)]
    return document


def _over(html: Any, document: Any) -> list[Any]:
    return [part for part in html.etree_element.iter() if _runs_over(part, document)]


def _tighter(part: Any) -> bool:
    """Go to the next step of a part; false where it stands at its last."""
    step = int(part.get("data-step") or 0)
    if step >= int(part.get("data-steps")):
        return False
    part.set("data-step", str(step + 1))
    return True


def _runs_over(part: Any, document: Any) -> bool:
    if part.get("data-pages") is None:
        return False
    return sum(part.get("id") in page.anchors for page in document.pages) > _most_pages(part)


def _most_pages(part: Any) -> int:
    overleaf = part.get("data-overleaf")
    step = int(part.get("data-step") or 0)
    return int(part.get("data-pages")) + (2 if overleaf is not None and step >= int(overleaf) else 0)


def _alone(html: Any, part: Any, parents: dict[Any, Any]) -> Any:
    """The same sheet with nothing in its body but this part, inside all that it lies in."""
    inner, root = part, html.etree_element
    while (outer := parents[inner]) is not root:
        inner = _shell(outer, [inner], parents)
    made = copy(html)
    made.etree_element = _shell(root, [*root.findall("head"), inner], parents)
    wrapper = cast("Any", type(html.wrapper_element))
    made.wrapper_element = wrapper.from_html_root(made.etree_element, content_language=None)
    return made


def _shell(element: Any, children: list[Any], parents: dict[Any, Any]) -> Any:
    """An element as it is, with other children; it stands where the element stood."""
    made = element.makeelement(element.tag, dict(element.attrib))
    made.extend(children)
    if element in parents:
        parents[made] = parents[element]
    return made
