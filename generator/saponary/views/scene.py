"""A recipe's pour as a scene to draw: portions by volume, their shades, the face of the bar."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import sqrt

from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.draw.pour import DrawnExtra, DrawnPortion, Face, Scene, Shade
from saponary.lye import mould as geometry
from saponary.lye.containers import FULL
from saponary.lye.formula import Addition, Oil, shares
from saponary.pantry.model import Pantry
from saponary.schema.methods.method import Makes
from saponary.views import names, shades

_NO_MOULD = Face("loaf", 80.0, 60.0)
"""A usual bar, where a recipe names no mould."""

_CAVITY_DEPTH = 28.0
"""mm; a cavity is known by its volume alone, so that its face is a guess at a usual bar."""

_BATTER, _SOAP = "batter", "soap"

ShadeOf = Callable[[str], Shade | None]
"""The shade of another recipe's bar, all its portions in one; None where it is not known."""


PLAIN: Mapping[Makes, Shade] = {"bar": shades.PLAIN, "soft": shades.CREAM, "liquid": shades.CLEAR}
"""What each kind of soap looks like with nothing in it."""


FaceOf = Callable[[str], Scene | None]
"""The face of another recipe's bar; None where it is not known."""


def scene(computed: Published, scrap: ShadeOf, face_of: FaceOf = lambda slug: None) -> Scene:
    """What is to be drawn for a recipe; `face_of` gives the faces that are seen in its embeds. Pure."""
    filled, method = computed.resolved.containers, computed.model.by
    return Scene(
        title=computed.model.title,
        portions=portions(computed, scrap),
        extras=tuple(_extras(computed, scrap, face_of)),
        face=face(computed),
        steps=tuple(computed.model.pour),
        top=method.top,
        vessel=method.vessel,
        level=filled.full if filled is not None else FULL,
    )


def portions(computed: Published, scrap: ShadeOf) -> tuple[DrawnPortion, ...]:
    """Portions with their part of the batter's volume; the whole batter where nothing is split."""
    made, formula = computed.figures.portions, computed.resolved.formula
    plain = _plain(computed, scrap)
    if not made:
        name = _BATTER if computed.model.by.vessel == "mould" else _SOAP
        return (DrawnPortion(name, 1.0, _shade(computed, formula.oils, formula.additions, 1.0, plain)),)
    whole = sum(p.batter_ml for p in made) or 1.0
    return tuple(
        DrawnPortion(p.name, p.batter_ml / whole, _shade(computed, p.oils, p.additions, p.share, plain))
        for p in made
    )


def portions_alone(computed: Published) -> tuple[DrawnPortion, ...]:
    """The same by this recipe alone: what it was melted of counts as plain."""
    return portions(computed, lambda slug: None)


def blended_shade(computed: Published) -> Shade:
    """The whole bar as one colour: what its scrap looks like. What it was itself melted of counts as plain."""
    return shades.blend((p.shade, p.volume_share) for p in portions_alone(computed))


def _plain(computed: Published, scrap: ShadeOf) -> Shade:
    """The soap with nothing stirred in: of a rebatch, the soap that it is melted of."""
    formula, pantry = computed.resolved.formula, computed.pantry
    if formula.weighs_lye:
        return PLAIN[computed.model.by.makes]
    return shades.blend((_extra(pantry, part.id, scrap), part.grams) for part in formula.remelted)


def _shade(
    computed: Published, oils: tuple[Oil, ...], additions: tuple[Addition, ...], share: float, plain: Shade
) -> Shade:
    """`share` is the part of the batch that this is, where there are no oils to count doses on."""
    shelf = computed.pantry
    grams = sum(oil.grams for oil in oils) or share * computed.resolved.formula.base_grams
    tints = [shades.tint(shelf.additions.get(a.id), a.grams, grams) for a in additions]
    for oil, share in shares(oils, oils):
        if oil.infused_with and share > 0:
            tints.append(shades.infused(shelf.botanical(oil.infused_with), share))
    return shades.shade(tints, plain)


def _extras(computed: Published, scrap: ShadeOf, face_of: FaceOf) -> Iterator[DrawnExtra]:
    """Powders of lines, embeds and what is sprinkled, each once."""
    embedded = {step.embeds.of for step in computed.model.pour if step.embeds is not None}
    for name in dict.fromkeys(use.what for use in pour_uses(computed)):
        entry = computed.pantry.additions.get(name)
        cut_from = entry.scrap_of if entry is not None and name in embedded else None
        yield DrawnExtra(
            name,
            names.addition(computed.pantry, name),
            _extra(computed.pantry, name, scrap),
            face_of(cut_from) if cut_from is not None else None,
        )


def face_alone(computed: Published) -> Scene | None:
    """The face of a bar by this recipe alone, as it is seen in another; None where it is poured into no mould."""
    return scene(computed, lambda slug: None) if computed.model.by.vessel == "mould" else None


def _extra(shelf: Pantry, name: str, scrap: ShadeOf) -> Shade:
    entry = shelf.additions.get(name)
    if entry is not None and entry.scrap_of is not None:
        return scrap(entry.scrap_of) or shades.PLAIN
    if entry is not None and entry.colour is not None:
        return Shade(entry.colour.fresh, entry.colour.cured)
    return Shade(*entry.dry) if entry is not None and entry.dry is not None else shades.PLAIN


def face(computed: Published) -> Face:
    """The face a buyer sees: across the loaf, the round of a pipe, a tray from above."""
    mould = computed.resolved.mould
    if mould is None:
        return _NO_MOULD
    full = min(computed.figures.loaf_ml / max(geometry.millilitres(mould), 1.0), 1.0)
    if mould.kind == "cylinder":
        return Face("round", mould.diameter, mould.diameter)
    if mould.kind == "cavities":
        side = sqrt(max(mould.cavity_ml, 1.0) * 1000.0 / _CAVITY_DEPTH)
        return Face("loaf", side, _CAVITY_DEPTH * full)
    height = max((mould.height - mould.liner) * full, 1.0)
    if mould.kind == "slab":
        from_above = any(step.kind in ("plops", "columns", "swirl") for step in computed.model.pour)
        return (
            Face("slab", mould.length, mould.width, True) if from_above else Face("slab", mould.width, height)
        )
    return Face("loaf", mould.width - 2 * mould.liner, height)
