"""The badge: what was worked out again, what held, and what the recipe still lacks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, get_args

from saponary.book.changes import Changed
from saponary.book.figure import FINGERPRINT, compare
from saponary.book.published import Published
from saponary.book.status import Name as StatusName
from saponary.checks.language import unchecked
from saponary.lye.fingerprint import matches
from saponary.messages.message import Listed, Message, message
from saponary.messages.message import day as on_day
from saponary.pantry.standard import standard
from saponary.quantity.units import QuantityError
from saponary.views import names
from saponary.views.site import SiteInput
from saponary.views.uptake import unknown_uptake
from saponary.words.standard import standard as standard_words


class Badge(NamedTuple):
    """`holds` is False where a figure does not; such a recipe is not built, but a preview shows it."""

    status: str
    missing: Message | None
    checked: Message
    behind: tuple[Message, ...]
    """What stands behind the figures, and what was not checked."""
    holds: bool
    fingerprint: str
    engine: str
    tables: str
    changed: Message | None
    remarks: tuple[str, ...]
    unknown: Message | None = None
    """Why the superfat is not known; figures of superfat are then not among those that hold."""

    @property
    def name(self) -> Message:
        return message(f"badge.{self.status}.name")

    @property
    def means(self) -> Message:
        return message(f"badge.{self.status}.means")


KEYS_BY_ID = {
    "badge.": (
        "hold",
        "hold-soap",
        *(f"{status}.{what}" for status in get_args(StatusName) for what in ("name", "means")),
    ),
    "badge.all-": ("signed", "quoted"),
    "badge.some-": ("signed", "quoted"),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def badge(recipe: Published, site: SiteInput) -> Badge:
    signed = _signed(recipe)
    quoted = _quoted(recipe)
    return Badge(
        status=recipe.status.name,
        missing=recipe.status.missing,
        checked=_checked(signed, quoted, "hold" if recipe.resolved.formula.weighs_lye else "hold-soap"),
        behind=tuple(_behind(recipe)),
        holds=all(signed) and all(quoted),
        fingerprint=recipe.fingerprint,
        engine=site.engine,
        tables=site.tables,
        changed=_changed(site.changed.get(recipe.slug)),
        remarks=(*recipe.remarks, *_unchecked(site)),
        unknown=unknown_uptake(recipe),
    )


def _unchecked(site: SiteInput) -> Iterator[str]:
    """What is not checked in the language of the book."""
    notice = unchecked(site.book.settings.language, standard_words())
    if notice:
        yield notice


def _behind(recipe: Published) -> Iterator[Message]:
    table = standard().oils
    oils = {oil.id: recipe.pantry.oils[oil.id] for oil in recipe.resolved.formula.oils if oil.grams > 0}
    own = [
        o
        for o in oils.values()
        if o.id not in table or o.saponification_value != table[o.id].saponification_value
    ]
    if own and len(own) < len(oils):
        yield message("badge.values.both", names=names.together(recipe.pantry, [oil.id for oil in own]))
    elif oils:
        yield message("badge.values.own" if own else "badge.values.table")
    if not recipe.resolved.formula.weighs_lye:
        yield message("badge.no-lye")
    if recipe.set_aside:
        yield message("badge.set-aside", count=recipe.set_aside)
    yield message("badge.not-checked")


def _changed(changed: Changed | None) -> Message | None:
    if changed is None:
        return None
    key = "badge.changed-again" if changed.again else "badge.changed"
    return message(key, day=on_day(changed.on))


def _signed(recipe: Published) -> list[bool]:
    computed = recipe
    return [
        matches(text.strip(), computed.fingerprint) if name == FINGERPRINT else _holds(recipe, name, text)
        for name, text in computed.model.signed.items()
        if _checkable(recipe, name)
    ]


def _quoted(recipe: Published) -> list[bool]:
    return [
        _holds(recipe, quote.name, quote.value)
        for quote in recipe.quotes
        if quote.value is not None and _checkable(recipe, quote.name)
    ]


def _checkable(recipe: Published, name: str) -> bool:
    return name not in recipe.catalogue or recipe.catalogue[name].known


def _holds(recipe: Published, name: str, text: str) -> bool:
    figure = recipe.catalogue.get(name)
    try:
        return figure is not None and compare(figure, text).holds
    except QuantityError:
        return False


def _checked(signed: list[bool], quoted: list[bool], key: str) -> Message:
    """How many figures hold: `3 signed and 1 of 2 quoted figures hold`."""
    parts = [_held(found, key) for found, key in ((signed, "signed"), (quoted, "quoted")) if found]
    if not parts:
        return message("badge.none-signed")
    return message(f"badge.{key}", count=len(signed) + len(quoted), parts=Listed(tuple(parts)))


def _held(found: list[bool], key: str) -> Message:
    held = sum(found)
    if held == len(found):
        return message(f"badge.all-{key}", number=held)
    return message(f"badge.some-{key}", number=held, whole=len(found))
