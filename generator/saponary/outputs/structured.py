"""What a page says of itself to programs: schema.org's HowTo of a method and Product of a soap, as JSON-LD 1.1;
and the picture that stands for it where a link to it is shown.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from posixpath import dirname, join, normpath
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.published import Published
from saponary.messages.message import Value
from saponary.messages.speaker import Speaker
from saponary.quantity.rounding import show
from saponary.views.batches import Photo
from saponary.views.pots import BATTER
from saponary.views.recipe import RecipeView
from saponary.views.shop import ShopPage, Stock
from saponary.views.stages.stage import Stage
from saponary.views.work import WorkOrder

_STOCK = {"now": "InStock", "due": "PreOrder", "none": "OutOfStock"}


class Picture(NamedTuple):
    """A picture of the site by its whole address; sizes in pixels."""

    address: str
    width: int
    height: int
    alt: Value


def picture(photo: Photo | None, top: str, path: str) -> Picture | None:
    """`top` is the address of the site's top, '' where the book does not say it; `path` that of the page."""
    if photo is None or not top:
        return None
    return Picture(top + normpath(join(dirname(path), photo.src)), photo.width, photo.height, photo.alt)


def how_to(view: RecipeView, about: str, shown: Picture | None, say: Speaker) -> Markup | None:
    """The work of a recipe as a HowTo; None where the page does not tell it."""
    if view.work is None:
        return None
    return _script(
        {
            "@type": "HowTo",
            "name": view.title,
            "description": about,
            **_image(shown),
            "supply": [
                {"@type": "HowToSupply", "name": name, "requiredQuantity": much}
                for name, much in dict.fromkeys(_supplies(view.work, say))
            ],
            "step": [
                {"@type": "HowToStep", "name": say.say(stage.title), "text": text}
                for stage in view.work.stages
                if (text := _text(stage, say))
            ],
        }
    )


def product(view: ShopPage, recipe: Published, shown: Picture | None, currency: str) -> Markup:
    """A soap as a Product, with an offer where it has a price in a currency of ISO 4217."""
    offer = recipe.model.shop
    priced = offer is not None and offer.price is not None and len(currency) == 3 and currency.isupper()
    made: dict[str, object] = {
        "@type": "Product",
        "name": view.title,
        "description": view.description,
        **_image(shown),
        **_weight(recipe),
    }
    if priced and offer is not None:
        made["offers"] = {
            "@type": "Offer",
            "price": str(offer.price),
            "priceCurrency": currency,
            "availability": f"https://schema.org/{_availability(view.stock)}",
        }
    return _script(made)


def _weight(recipe: Published) -> dict[str, object]:
    """The weight that the label states, in grams by their code of UN/CEFACT Recommendation 20."""
    label = recipe.model.label
    if label is None or label.net_weight is None:
        return {}
    grams = float(show(label.net_weight.grams, 0))
    return {"weight": {"@type": "QuantitativeValue", "value": grams, "unitCode": "GRM"}}


def _availability(stock: Stock) -> str:
    return _STOCK[stock.state]


def _image(shown: Picture | None) -> dict[str, object]:
    return {"image": shown.address} if shown is not None else {}


def _supplies(work: WorkOrder, say: Speaker) -> Iterator[tuple[str, str]]:
    """What is weighed of the maker's store, and how much with its unit: no batter from another vessel."""
    for stage in work.stages:
        for table in (*stage.tables, *(portion.table for portion in stage.portions)):
            for line in table.lines:
                if line.main is not None and line.id not in BATTER:
                    yield _plain(line.what, say), _plain(replace(line.main, unit=work.unit), say)


def _text(stage: Stage, say: Speaker) -> str:
    told = [*stage.lead, *stage.order, *stage.steps, *stage.close]
    return " ".join(text for one in told if (text := _plain(one, say)))


def _plain(what: Value | Markup, say: Speaker) -> str:
    return Markup(what).striptags() if isinstance(what, Markup) else say.say(what)


def _script(made: dict[str, object]) -> Markup:
    """The data of a script element: no sign in it can end the element (HTML, 4.12.1.3)."""
    text = json.dumps({"@context": "https://schema.org", **made}, ensure_ascii=False)
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))
