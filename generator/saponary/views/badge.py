"""The badge: what was worked out again, what held, and what the recipe still lacks."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.book.catalogue import FINGERPRINT, compare
from saponary.book.changes import Changed
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.views.site import RecipeInput, SiteInput

_SAYS = {
    "draft": "Draft",
    "stated": "Stated",
    "tested": "Tested",
}
_MEANS = {
    "draft": "nothing is signed yet",
    "stated": "the maker has signed these figures, and they hold",
    "tested": "a batch of this very formula was cured and held no free alkali",
}


@dataclass(frozen=True)
class Badge:
    """`holds` is False where a figure does not; such a recipe is not built, but a preview shows it."""

    status: str
    name: str
    means: str
    missing: str
    checked: str
    holds: bool
    fingerprint: str
    engine: str
    tables: str
    changed: str
    remarks: tuple[str, ...]
    remarked: str


def badge(recipe: RecipeInput, site: SiteInput) -> Badge:
    stated = _stated(recipe)
    quoted = _quoted(recipe)
    remarks = tuple(dict.fromkeys(f.message for f in recipe.warnings if f.severity == "warning"))
    return Badge(
        status=recipe.status.name,
        name=_SAYS[recipe.status.name],
        means=_MEANS[recipe.status.name],
        missing=recipe.status.missing,
        checked=_sentence(stated, quoted),
        holds=all(stated) and all(quoted),
        fingerprint=recipe.computed.fingerprint,
        engine=site.engine,
        tables=site.tables,
        changed=_changed(site.changed.get(recipe.slug)),
        remarks=remarks,
        remarked="One remark of the checks" if len(remarks) == 1 else f"{len(remarks)} remarks of the checks",
    )


def _changed(changed: Changed | None) -> str:
    if changed is None:
        return ""
    return f"sources last changed {changed.on.isoformat()}{', and again since' if changed.again else ''}"


def _stated(recipe: RecipeInput) -> list[bool]:
    computed = recipe.computed
    return [
        matches(text.strip(), computed.fingerprint) if name == FINGERPRINT else _holds(recipe, name, text)
        for name, text in computed.model.stated.items()
    ]


def _quoted(recipe: RecipeInput) -> list[bool]:
    return [
        _holds(recipe, quote.name, quote.value) for quote in recipe.computed.quotes if quote.value is not None
    ]


def _holds(recipe: RecipeInput, name: str, text: str) -> bool:
    figure = recipe.computed.catalogue.get(name)
    try:
        return figure is not None and compare(figure, text).holds
    except QuantityError:
        return False


def _sentence(stated: list[bool], quoted: list[bool]) -> str:
    def said(found: list[bool], word: str) -> str:
        held = sum(found)
        return f"{held} {word}" if held == len(found) else f"{held} of {len(found)} {word}"

    parts = [said(stated, "stated")] if stated else []
    parts += [said(quoted, "quoted")] if quoted else []
    if not parts:
        return "No figure is stated or quoted; all on this page are worked out."
    one = len(stated) + len(quoted) == 1
    return f"{' and '.join(parts)} {'figure holds' if one else 'figures hold'}, worked out again from the oils up."
