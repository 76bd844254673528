"""bare-figure: a number in a published sentence that names no figure and agrees with none.

Only figures in braces are held to the recipe at each build. A number beside a word for lye,
water, superfat or an ingredient is read as a figure too; where it is none of the recipe's
today, it is stale or wrong.
"""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.catalogue import catalogue
from saponary.book.computed import Computed
from saponary.book.figure import Figure
from saponary.book.quotes import TEXT_KEYS
from saponary.book.resolve import Resolved
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.figures import weigh
from saponary.quantity.rounding import to_decimals
from saponary.quantity.units import MASS
from saponary.reading.findings import Finding
from saponary.reading.tree import Span
from saponary.words.bare_figures import BareFigure, bare_figures
from saponary.words.figure_tokens import VOLUMES
from saponary.words.figure_words import LYE, OILS, SOLUTION, SUPERFAT, WATER, figure_words
from saponary.words.shown import Shown, raw, scalar, unmarked
from saponary.words.standard import standard

_OUTSIDE = ("private", "batches", "waive")
"""Parts of a recipe that are not published, or tell of one lot that was."""


def check(computed: Computed) -> Iterator[Finding]:
    table = figure_words()
    language = computed.settings.language.partition("-")[0].lower()
    words, listed = table.languages.get(language), standard().languages.get(language)
    if words is None:
        return
    formula = computed.resolved.formula
    ids = (
        [o.id for o in (*formula.oils, *formula.after_cook)]
        + [a.id for a in formula.additions]
        + [q.id for q in formula.liquids]
    )
    named = table.named(dict.fromkeys(ids))
    held: _Held | None = None
    for shown in _texts(computed):
        for bare in bare_figures(shown, words, named, listed.abbreviations if listed else frozenset()):
            held = held or _Held(computed)
            if not held.by(bare):
                yield _finding(computed, bare, held.nearest(bare))


def _texts(computed: Computed) -> Iterator[Shown]:
    file = computed.file
    seen: dict[tuple[int, int], Span] = {
        (span.start, span.end): span
        for path, span in file.tree.values.items()
        if path and path[-1] in TEXT_KEYS and not any(part in _OUTSIDE for part in path)
    }
    for start, end in sorted(seen):
        text = scalar(file.text[start:end], seen[start, end].style, start)
        yield unmarked(text, blocks=False)
    yield unmarked(raw(file.body, file.body_start), blocks=True)


class _Held:
    """Every figure of a recipe, and of the other sizes it offers, that a bare number may agree with."""

    def __init__(self, computed: Computed) -> None:
        self.computed = computed
        units = computed.settings.units
        sized = (catalogue(weigh(one.formula), one, units) for one in _resized(computed))
        self.figures: list[Figure] = [
            *computed.catalogue.values(),
            *(f for each in sized for f in each.values()),
        ]

    def by(self, bare: BareFigure) -> bool:
        """Whether some figure of what the number is of rounds to it, or is the whole that it is a part of."""
        return any(_same(value, bare) or (bare.part and value > bare.value) for value in self._values(bare))

    def nearest(self, bare: BareFigure) -> Figure | None:
        """The figure a number most likely means: the first of its subject and kind."""
        kinds = {"mass": "mass", "volume": "mass", "share": "share", "ratio": "ratio"}
        own = [
            f for f in self.computed.catalogue.values() if f.kind == kinds[bare.kind] and _is_of(f.name, bare)
        ]
        return own[0] if own else None

    def _values(self, bare: BareFigure) -> Iterator[float]:
        for figure in self.figures:
            if not _is_of(figure.name, bare):
                continue
            if bare.kind == "mass" and figure.kind == "mass" and bare.per is None:
                yield figure.in_unit(bare.unit)
            elif bare.kind == "volume" and figure.kind == "mass":
                yield figure.value / VOLUMES[bare.unit]
            elif bare.kind == "share" and figure.kind == "share":
                yield 100 * figure.value
            elif bare.kind == "ratio" and figure.kind == "ratio":
                yield from (figure.value, 1 / figure.value)
        if bare.subject == SOLUTION and bare.kind == "mass" and self.computed.resolved.formula.weighs_lye:
            whole = self.computed.catalogue
            yield whole["lye"].in_unit(bare.unit) + whole["water"].in_unit(bare.unit)
        yield from self._rates(bare)

    def _rates(self, bare: BareFigure) -> Iterator[float]:
        """Shares of the oils, and rates per kilogram of them, in the batch and in each portion."""
        figures = self.computed.catalogue
        pots = [("", self.computed.resolved.formula.base_grams)]
        pots += [
            (f"portion {p.name} ", p.oils_grams) for p in self.computed.figures.portions if p.oils_grams > 0
        ]
        for head, oils in pots:
            for figure in figures.values():
                if figure.kind != "mass" or not figure.name.startswith(head) or not _is_of(figure.name, bare):
                    continue
                if bare.kind == "share" and figure.name != f"{head}lye-solution":
                    yield 100 * figure.value / oils
                elif bare.kind == "mass" and bare.per is not None:
                    yield bare.per * figure.value / oils / float(MASS[bare.unit])
        if bare.kind == "share" and bare.subject == LYE:
            alkali = self.computed.resolved.formula.alkali
            yield from (
                100 * part
                for part in (alkali.sodium, alkali.potassium, alkali.sodium_purity, alkali.potassium_purity)
            )


def _resized(computed: Computed) -> Iterator[Resolved]:
    for size in computed.resolved.sizes:
        yield Resolved(size.formula, bars=size.bars)


_NAMES = {
    LYE: (
        "lye",
        "sodium-hydroxide",
        "potassium-hydroxide",
        "sodium-hydroxide-stock",
        "potassium-hydroxide-stock",
        "lye-solution",
        "lye-strength",
    ),
    SOLUTION: ("lye-solution", "lye-strength"),
    WATER: (
        "water",
        "plain-water",
        "water-beside-stock",
        "dilution-water",
        "liquids-water",
        "lye-solution",
        "water-of-oils",
        "water-to-lye",
        "lye-strength",
    ),
    SUPERFAT: ("superfat", "superfat-as-weighed", "superfat-with-liquids-fat"),
    OILS: ("oils", "oils-for-label", "smallest-batch"),
}


def _is_of(name: str, bare: BareFigure) -> bool:
    """Whether a figure of the catalogue is of what the number is of."""
    last = name.rpartition(" ")[2]
    known = _NAMES.get(bare.subject)
    if known is None:
        return last == bare.subject
    if bare.subject == LYE and bare.kind == "ratio":
        return last == "water-to-lye"
    return last in known


def _same(value: float, bare: BareFigure) -> bool:
    if bare.grouped is not None and to_decimals(value, 0) == to_decimals(bare.grouped, 0):
        return True
    return float(to_decimals(value, bare.decimals)) == float(to_decimals(bare.value, bare.decimals))


def _finding(computed: Computed, bare: BareFigure, figure: Figure | None) -> Finding:
    hint = "name the figure in braces, so that each build checks it"
    if figure is not None:
        hint = (
            f"write {{{figure.name}}}, or {{{figure.name} = {figure.text()}}}, so that each build checks it"
        )
    return Finding(
        RULE.name,
        "warning",
        computed.file.place_at(bare.start),
        f"“{bare.text}” stands beside {bare.subject!r} and is not a figure of this recipe",
        hint,
        bare.text,
    )


RULE = Rule(
    "bare-figure",
    "stale",
    "A number in a sentence, beside a word for lye, water, superfat or an ingredient, is read as a "
    "figure of the recipe. The build keeps only figures in braces true. A number that matches no figure"
    " of today is out of date or wrong. Sentences about the past, or about soap in general, are not "
    "read.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="figure",
)
