"""The shop as a customer sees it: cards to choose from, and a page for each soap."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from markupsafe import Markup

from saponary.book.published import Published
from saponary.draw.pour import PourDrawing
from saponary.label.holds import holds
from saponary.label.lists import Bar
from saponary.messages.message import Day, Listed, Message, Number, Value, Within, day, message
from saponary.pantry.colour import near
from saponary.schema.settings import Settings
from saponary.views import links, names
from saponary.views.asking import asking
from saponary.views.batches import Photo
from saponary.views.choices import Choice, What, choices, marks
from saponary.views.colour_words import in_words
from saponary.views.lead_photo import lead_photo
from saponary.views.lot_page import sold_lots
from saponary.views.money import money
from saponary.views.prose import Prose, first_sentence
from saponary.views.prose_links import Links
from saponary.views.scene import portions_alone
from saponary.views.shop_allergens import Brought, allergens, free
from saponary.views.shop_contents import Legal, Row, contents, legal
from saponary.views.site import SiteInput
from saponary.views.swatches import Tinted, tinted
from saponary.views.traits import Traits, scent_of, traits

_CHOSEN_BY: tuple[What, ...] = ("ready", "scent", "free", "colour", "oil")


@dataclass(frozen=True)
class Stock:
    """Whether a soap is there: `now`, `due` on a day, or `none`; and in words, short and long."""

    state: Literal["now", "due", "none"]
    brief: Message
    words: Message


@dataclass(frozen=True)
class ShopCard:
    title: str
    href: str
    photo: Photo | None
    drawing: str
    text: str
    weight: Value | None
    price: Value | None
    scent: Value | None
    stock: Stock
    marks: str
    newest: bool = False


class ShopRow(NamedTuple):
    """One soap on the index: its card, what it may be chosen by, the colours of its parts, and its place."""

    card: ShopCard
    ready: bool
    traits: Traits
    tinted: tuple[Tinted, ...]
    rank: tuple[int, int, str]


@dataclass(frozen=True)
class ShopIndex:
    title: str
    description: str
    opening: Markup | None
    choices: tuple[Choice, ...]
    cards: tuple[ShopCard, ...]
    ask: str


@dataclass(frozen=True)
class Face:
    """One face of the drawing: its address, and its size in its own measure."""

    src: str
    width: int
    height: int
    alt: Message


class Sold(NamedTuple):
    """The newest lot for sale: its page, and when a test found no free alkali in it."""

    name: str
    href: str
    tested: Day


class ShopPage(NamedTuple):
    title: str
    collection: str
    description: str
    text: Markup | None
    photo: Photo | None
    price: Value | None
    weight: Value | None
    stock: Stock
    facts: tuple[tuple[Message, Value], ...]
    lot: Sold | None
    allergens: tuple[Brought, ...]
    ask_allergens: bool
    free: Value | None
    faces: tuple[Face, ...]
    turns: tuple[Message, ...]
    contents: tuple[Row, ...]
    legal: Legal | None
    keeping: tuple[Markup, ...]
    fades: Message | None
    tested: bool
    lye: str
    ask: str


def shop_row(recipe: Published, site: SiteInput) -> ShopRow:
    """One soap, wherever it stands."""
    ready = bool(recipe.on_sale.lots)
    has = traits(recipe, site, ready)
    card = replace(_card(recipe, site), marks=marks(has))
    return ShopRow(card, ready, has, tinted(recipe), _rank(recipe))


def in_shop_order(rows: Iterable[ShopRow]) -> list[ShopRow]:
    """Ready soaps first, the newest lot at their head; then those that are due, then the others."""
    return sorted(rows, key=lambda row: row.rank)


def shop_index(site: SiteInput, rows: Sequence[ShopRow]) -> ShopIndex:
    """The first page, of soaps in their order."""
    settings = site.book.settings
    cards = [row.card for row in rows]
    if cards and rows[0].ready and cards[0].photo is not None and len(cards) > 2:
        cards[0] = replace(cards[0], newest=True)
    opening = settings.shop.opening or settings.subtitle
    return ShopIndex(
        title=settings.title,
        description=Prose({}).plain(opening) or settings.title,
        opening=Prose({}).inline(opening) if opening else None,
        choices=shop_choices(rows),
        cards=tuple(cards),
        ask=asking(settings.shop).ask,
    )


def shop_choices(rows: Sequence[ShopRow]) -> tuple[Choice, ...]:
    """What the soaps of these rows, in their order, may be chosen by."""
    return choices([row.traits for row in rows], _CHOSEN_BY)


def _rank(recipe: Published) -> tuple[int, int, str]:
    """The newest ready lot first; then by the day the next is due; then by title."""
    sold = recipe.on_sale
    if sold.lots:
        return 0, -max(lot.ready for lot in sold.lots).toordinal(), recipe.slug
    return (1, sold.due.toordinal(), recipe.slug) if sold.due else (2, 0, recipe.slug)


def _card(recipe: Published, site: SiteInput) -> ShopCard:
    prose = Prose(recipe.catalogue)
    offer, scent = recipe.model.shop, scent_of(recipe, site.labels.get(recipe.slug))
    return ShopCard(
        title=prose.title(recipe.model.title),
        href=links.recipe_page(recipe.slug),
        photo=lead_photo(recipe, site, prose),
        drawing=links.drawing(recipe.slug, "cured"),
        text=first_sentence(prose.plain(offer.text if offer and offer.text else recipe.model.summary)),
        weight=net_weight(recipe, site.book.settings),
        price=_price(recipe, site.book.settings),
        scent=scent.words if scent is not None else None,
        stock=stock(recipe),
        marks="",
    )


def shop_page(recipe: Published, site: SiteInput, drawing: PourDrawing, up: str) -> ShopPage:
    settings, offer = site.book.settings, recipe.model.shop
    prose = Prose(recipe.catalogue, Links(up=up))
    bar = site.labels.get(recipe.slug)
    text = offer.text if offer is not None and offer.text else recipe.model.summary
    held = holds(bar) if bar is not None else None
    return ShopPage(
        title=prose.title(recipe.model.title),
        collection=recipe.model.collection or "",
        description=prose.plain(text),
        text=prose.inline(text) if text else None,
        photo=lead_photo(recipe, site, prose),
        price=_price(recipe, settings),
        weight=net_weight(recipe, settings),
        stock=stock(recipe),
        facts=tuple(_facts(recipe, bar)),
        lot=next((Sold(sold.lot, up + path, day(sold.tested)) for path, sold in sold_lots(recipe)), None),
        allergens=tuple(allergens(bar, settings)) if bar is not None else (),
        free=free(bar),
        ask_allergens=held is None or not held.known,
        faces=_faces(recipe, drawing),
        turns=tuple(_turns(recipe)),
        contents=contents(bar) if bar is not None else (),
        legal=legal(bar, settings) if bar is not None else None,
        keeping=tuple(prose.inline(t) for t in (settings.shop.keeping, offer.keeping if offer else "") if t),
        fades=_fades(recipe),
        tested=bool(recipe.on_sale.lots),
        lye=up + links.LYE,
        ask=asking(settings.shop).ask,
    )


def stock(recipe: Published) -> Stock:
    """Whether it is there today, told shortly and in a sentence."""
    sold, offer = recipe.on_sale, recipe.model.shop
    left = offer.stock if offer is not None else None
    if sold.lots and left != 0:
        since = min(lot.ready for lot in sold.lots[:1])
        words = message("shop.now-since", day=day(since))
        if left is not None:
            words = message("shop.left", count=left, words=words)
        return Stock("now", message("shop.now"), words)
    if sold.due is not None:
        return Stock(
            "due", message("shop.from", day=day(sold.due, "no-year")), message("shop.due", day=day(sold.due))
        )
    return Stock("none", message("shop.not-made"), message("shop.not-made"))


def _price(recipe: Published, settings: Settings) -> Value | None:
    offer = recipe.model.shop
    return money(offer.price, settings.currency) if offer is not None and offer.price is not None else None


def net_weight(recipe: Published, settings: Settings) -> Value | None:
    """The weight that the label states, in the book's units."""
    label = recipe.model.label
    if label is None or label.net_weight is None:
        return None
    return Number(label.net_weight.grams, 0, "g", tight=True)


def _facts(recipe: Published, bar: Bar | None) -> Iterator[tuple[Message, Value]]:
    scent = scent_of(recipe, bar)
    if scent is not None:
        yield message("shop.scent"), scent.words if scent.added else message("shop.none-added")


def _faces(recipe: Published, drawing: PourDrawing) -> tuple[Face, ...]:
    title = Prose(recipe.catalogue).title(recipe.model.title)
    width, height = drawing.size
    poured = message("drawing.fresh-alt", title=title, drawing=drawing.description)
    sold = message("shop.sold-alt", title=title, drawing=drawing.description)
    return Face("fresh.svg", width, height, poured), Face("cured.svg", width, height, sold)


def _turns(recipe: Published) -> Iterator[Message]:
    """What the cure does to a colour that does not stay."""
    for portion in portions_alone(recipe):
        fresh, cured = in_words(portion.shade.fresh), in_words(portion.shade.cured)
        if fresh != cured and not near(portion.shade.fresh, portion.shade.cured):
            yield message(
                "shop.turns", portion=names.spoken(portion.name).capitalize(), fresh=fresh, cured=cured
            )


def _fades(recipe: Published) -> Message | None:
    used = dict.fromkeys(a.id for p in recipe.figures.portions for a in p.additions)
    entries = [recipe.pantry.additions[name] for name in used if name in recipe.pantry.additions]
    pale = [e.name for e in entries if e.colour is not None and e.colour.lightfast == "poor"]
    return message("shop.fades", names=Listed(tuple(map(Within, pale)))) if pale else None
