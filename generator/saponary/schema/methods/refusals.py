"""Why keys do not fit a method, where several methods share the reason."""

from __future__ import annotations

from collections.abc import Mapping

NO_SOAP = "soap of earlier lots is melted in a rebatch; set into a bar it is an addition"

NO_DILUTION = "a bar is not thinned with water"

_JARS = "it goes into jars or bottles, and not into a mould"
_BARS = "there are no bars to weigh or to cut"

NO_MOULD: Mapping[str, str] = {
    "soap": NO_SOAP,
    "oils.fill": _JARS,
    "mould": _JARS,
    "cut": _BARS,
    "sizes.mould": _JARS,
    "pour": _JARS,
    "portions": "all of it is cooked in one pot and is of one kind",
    "pots": "all of it is cooked in one pot and is of one kind",
    "batches.mould": _JARS,
    "batches.gel": "it is cooked through",
    "batches.unmoulded": _JARS,
    "batches.cut": _BARS,
    "batches.weighed": _BARS,
    "batches.bars": _BARS,
}
"""Of soap that stays soft or liquid."""

_NO_LYE = "no lye is weighed in a rebatch, and no oils are saponified"

NO_LYE: Mapping[str, str] = {
    "oils": _NO_LYE,
    "lye": _NO_LYE,
    "superfat": _NO_LYE,
    "water": "what softens the soap is listed under liquids",
    "temperatures": _NO_LYE,
    "pots": "all of it is melted in one pot",
    "portions.oils": _NO_LYE,
    "portions.infused": _NO_LYE,
    "sizes": "a rebatch is as large as the soap that is left for it",
    "container": "a bar is spooned into a mould",
    "dilute": NO_DILUTION,
    "rest": "a bar dries, and its weighings say when it is ready",
    "batches.lye-temperature": _NO_LYE,
    "batches.oils-temperature": _NO_LYE,
    "batches.trace": _NO_LYE,
    "batches.gel": _NO_LYE,
}
"""Of ready soap that is melted again."""
