"""From what a sheet says to a recipe's file, unsigned, and what the engine makes of the sheet's own lye.

The lye of a sheet is never taken over: the recipe says oils, superfat and water, and the engine works
the lye out. Where the sheet has a lye of its own, the two are compared and the difference is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from saponary.book.from_sheet import ALKALIS, Sheet
from saponary.book.recipe_text import parse_recipe
from saponary.book.resolve import resolve
from saponary.book.sheet_words import folded
from saponary.lye.constants import KOH, NAOH
from saponary.lye.figures import Figures, weigh
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import WeightUnit, weight
from saponary.quantity.rounding import show
from saponary.quantity.units import MASS
from saponary.reading.addresses import address_fault
from saponary.reading.findings import Finding, Place
from saponary.schema.settings import Settings

_MOLAR = {"sodium-hydroxide": NAOH, "potassium-hydroxide": KOH}
_SUPERFATS = (Fraction(0), Fraction(1, 5))
"""What a superfat worked back from a sheet's own lye may be. Common practice, no source."""
_NEAR, _NEAR_SHARE = 0.5, 0.005
"""Grams and share by which a sheet's weight may differ from the engine's before it is told: rounding."""


def recipe_of(
    sheet: Sheet, file: str, settings: Settings, pantry: Pantry
) -> tuple[str | None, list[Finding]]:
    """The recipe's text, None where the sheet names no oils that are known; and all that is to be told."""
    place = Place(file, sheet.at + 1, 1)
    lacking = _lacking(sheet)
    if lacking is not None:
        return None, [*sheet.findings, Finding("reading", "error", place, *lacking)]
    superfat, told = _superfat_of(sheet, place, settings, pantry)
    found = [*sheet.findings, *_as_read(sheet, place), *told]
    text = _text(sheet, superfat)
    made = _weighed(text, settings, pantry) or _weighed(_text(_watered(sheet), superfat), settings, pantry)
    if sheet.water is not None and made is not None and made.water.liquids + made.water.additions > 0:
        text = _text(sheet, superfat, Fraction(made.water.liquids + made.water.additions))
        made = _weighed(text, settings, pantry)
    unread = _unread(text)
    if unread is not None:
        return None, [*found, Finding("reading", "error", place, *unread)]
    if made is not None and sheet.superfat is not None:
        found += _lye_compared(sheet, made, place)
    if made is not None and sheet.water is not None:
        found += _apart(place, "water", float(sheet.water), made.water.plain, _units(sheet))
    return text, found


def _lacking(sheet: Sheet) -> tuple[str, str] | None:
    """Why a sheet has no oils to make soap of, and what would help."""
    oils = sheet.oils or sheet.shares
    if not oils:
        return "no oils are known in this table", "see its other findings"
    return None if sum(oils.values()) else ("the oils of this table weigh nothing", "give their weights")


def _as_read(sheet: Sheet, place: Place) -> Iterator[Finding]:
    """How shares were read."""
    if not sheet.oils:
        hint = "write the total that you want into the recipe"
        yield _warning(place, "this table has shares and no weights; 1000 g of oils are taken", hint)
    if sheet.water_share is not None and sheet.water is None:
        read = f"the water of this table has a share; it is read as {_water_of_oils(sheet)} % of the oils"
        hint = "where it is a share of something else, write water: {lye-strength: 33 %} or to-lye: into the recipe"
        yield _warning(place, read, hint)


def _superfat_of(
    sheet: Sheet, place: Place, settings: Settings, pantry: Pantry
) -> tuple[Fraction | None, list[Finding]]:
    """What a sheet says of its superfat, or what its lye leaves; None where the book's holds."""
    if sheet.superfat is not None:
        return sheet.superfat, []
    if sheet.alkali:
        return _worked_back(sheet, place, settings, pantry)
    return None, [
        _warning(place, "this table has no superfat and no lye", "the book's superfat holds for it")
    ]


def _watered(sheet: Sheet) -> Sheet:
    """With some water where it has none: lye and superfat do not rest on it."""
    return (
        replace(sheet, strength=Fraction(1, 3))
        if sheet.water_share is None and sheet.water is None
        else sheet
    )


def slug_of(title: str) -> str:
    """A file name for a recipe of this title, without `.md`."""
    slug = re.sub(r"[^a-z0-9]+", "-", folded(title).replace("ß", "ss")).strip("-")[:60].rstrip("-")
    return slug if address_fault(slug) is None else f"recipe-{slug}".rstrip("-")


def _text(sheet: Sheet, superfat: Fraction | None, beside: Fraction = Fraction(0)) -> str:
    """The recipe's file; `beside` is the water, in grams, that liquids and additions bring."""
    oils = sheet.oils or sheet.shares
    whole = sum(oils.values())
    lines = ["---", f"title: {_quoted(sheet.title)}", "oils:"]
    lines += [] if sheet.oils else ["  total: 1000 g"]
    lines.append("  parts:")
    for name, part in oils.items():
        lines.append(
            f"    {name}: {_decimal(part)} g"
            if sheet.oils
            else f"    {name}: {_decimal(100 * part / whole)} %"
        )
    lines += _alkali_lines(sheet)
    if superfat is not None:
        lines.append(f"superfat: {_decimal(100 * superfat)} %")
    if sheet.water is not None and sheet.oils:
        lines.append(f"water: {{of-oils: {_decimal(100 * (sheet.water + beside) / whole, 6)} %}}")
    elif sheet.water_share is not None:
        lines.append(f"water: {{of-oils: {_water_of_oils(sheet)} %}}")
    elif sheet.strength is not None:
        lines.append(f"water: {{lye-strength: {_decimal(100 * sheet.strength)} %}}")
    for kind, parts, stage in (("liquids", sheet.liquids, ", at: lye"), ("additions", sheet.additions, "")):
        if parts:
            lines.append(f"{kind}:")
            lines += [
                f"  - {{what: {name}, amount: {_mass(grams, sheet)}{stage}}}" for name, grams in parts.items()
            ]
    return "\n".join([*lines, "---", ""])


def _water_of_oils(sheet: Sheet) -> str:
    """In per cent; beside oils that have shares of all that is weighed, water's share is one of that too."""
    assert sheet.water_share is not None
    whole = Fraction(1) if sheet.oils else sum(sheet.shares.values(), Fraction(0))
    return _decimal(100 * sheet.water_share / whole, 4)


def _alkali_lines(sheet: Sheet) -> list[str]:
    moles = {name: float(grams) / _MOLAR[name] for name, grams in sheet.alkali.items() if grams > 0}
    if "potassium-hydroxide" not in moles:
        return []
    share = Fraction(moles["potassium-hydroxide"] / sum(moles.values())).limit_denominator(10**6)
    return [f"lye: {{sodium: {_decimal(100 - 100 * share)} %, potassium: {_decimal(100 * share)} %}}"]


def _worked_back(
    sheet: Sheet, place: Place, settings: Settings, pantry: Pantry
) -> tuple[Fraction | None, list[Finding]]:
    """The superfat that a sheet's own lye leaves, by today's tables; None where it is no superfat of a soap."""
    made = _weighed(_text(_watered(sheet), Fraction(0)), settings, pantry)
    if made is None or not sheet.oils:
        return None, []
    needed = sum(_of(made, name) / _MOLAR[name] for name in ALKALIS)
    given = sum(float(grams) / _MOLAR[name] for name, grams in sheet.alkali.items())
    superfat = Fraction(show(100 * (1 - given / needed), 2)) / 100
    said = f"this table has no superfat; by the tables, its lye leaves {show(100 * float(superfat), 2)} %"
    if _SUPERFATS[0] <= superfat <= _SUPERFATS[1]:
        return superfat, [_warning(place, said, "look whether that is what you meant")]
    return None, [
        Finding("reading", "error", place, said, "the book's superfat holds; compare the weights of the lye")
    ]


def _units(sheet: Sheet) -> WeightUnit:
    return "oz" if sheet.unit in ("oz", "lb") else "g"


def _lye_compared(sheet: Sheet, made: Figures, place: Place) -> Iterator[Finding]:
    for name in ALKALIS:
        if name in sheet.alkali:
            yield from _apart(
                place, name.replace("-", " "), float(sheet.alkali[name]), _of(made, name), _units(sheet)
            )


def _apart(place: Place, what: str, said: float, made: float, units: WeightUnit) -> Iterator[Finding]:
    if abs(said - made) > max(_NEAR, _NEAR_SHARE * made):
        told = f"this table has {weight(said, 1, units)} of {what}, and the engine gives {weight(made, 1, units)}"
        yield _warning(place, told, "the recipe has the engine's; look where the other came from")


def _of(made: Figures, name: str) -> float:
    weights: Mapping[str, float] = {
        "sodium-hydroxide": made.weights.sodium_hydroxide,
        "potassium-hydroxide": made.weights.potassium_hydroxide,
    }
    return weights[name]


def _weighed(text: str, settings: Settings, pantry: Pantry) -> Figures | None:
    recipe = parse_recipe("recipes/sheet.md", text)
    if recipe.model is None:
        return None
    resolved, _ = resolve(recipe.model, settings, pantry, recipe.tree, recipe.file)
    return weigh(resolved.formula) if resolved is not None else None


def _unread(text: str) -> tuple[str, str] | None:
    """Why a text cannot be read as a recipe, and what would help. One that lacks its water can be read."""
    faults = (one for one in parse_recipe("recipes/sheet.md", text).findings if one.severity == "error")
    first = next(faults, None)
    return (f"no recipe can be made of this table: {first.message}", first.hint) if first else None


def _mass(grams: Fraction, sheet: Sheet) -> str:
    """A weight in the unit of the sheet."""
    return f"{_decimal(grams / Fraction(MASS[sheet.unit]))} {sheet.unit}"


def _decimal(value: Fraction, places: int = 4) -> str:
    """Without noughts at the end."""
    text = show(float(value), places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _quoted(text: str) -> str:
    plain = "".join(c if c.isprintable() else " " for c in text)
    return '"' + plain.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _warning(place: Place, message: str, hint: str) -> Finding:
    return Finding("reading", "warning", place, message, hint)
