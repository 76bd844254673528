"""Record: a new batch record, written into the book with today's fingerprint and blanks to fill.

Only lines are added; the file is read again in memory first, and is not written unless it
holds all it held before and one batch more.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from saponary.book.cure_days import cure_days
from saponary.book.proofed import Proofed
from saponary.book.recipe_text import parse_recipe
from saponary.book.records import BatchRecord
from saponary.book.rows import to_weigh
from saponary.build.save import save
from saponary.lye.formula import Stock
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import show
from saponary.reading.text_edits import Edit, apply, closing_line, newline_of
from saponary.reading.tree import Tree
from saponary.reading.yaml_tree import read_yaml


class CannotRecord(Exception):
    """The record cannot be set in; the message says what stands in the way."""


def record(
    root: Path,
    batches: Mapping[str, Sequence[BatchRecord]],
    one: Proofed,
    lot: str | None,
    poured: date,
    by: str | None,
) -> tuple[Path, str]:
    """Write the record; returns the file and the lines added. Raises CannotRecord, SavedMeanwhile and OSError."""
    separate = root / "batches" / f"{one.computed.file.slug}.yaml"
    taken = {kept.batch.lot: slug for slug, held in batches.items() for kept in held}
    lot = lot or next_lot(one, taken)
    if lot in taken:
        raise CannotRecord(f"the lot {lot!r} is recorded already, for {taken[lot]!r}")
    if separate.is_file():
        text = separate.read_bytes().decode("utf-8")
        start = 1 if text.startswith("\ufeff") else 0
        tree, _ = read_yaml(text[start:], separate.name, offset=start)
        new, block = _with_record(text, tree, len(text), one, lot, poured, by)
        after, findings = read_yaml(new[start:], separate.name, offset=start)
        _same_and_one_more(tree, after, not findings)
        save(separate, text, new)
        return separate, block
    recipe = one.computed.file
    new, block = _with_record(recipe.text, recipe.tree, closing_line(recipe), one, lot, poured, by)
    again = parse_recipe(recipe.file, new)
    _same_and_one_more(recipe.tree, again.tree, again.model is not None and again.body == recipe.body)
    path = root / recipe.file
    save(path, recipe.text, new)
    return path, block


def next_lot(one: Proofed, taken: Collection[str] = ()) -> str:
    """The recipe's own run of lots, one further; else initials of the title and 001. None that is `taken`."""
    prefix, number, digits = _run_of(one)
    while (lot := f"{prefix}{number:0{digits}d}") in taken:
        number += 1
    return lot


def _run_of(one: Proofed) -> tuple[str, int, int]:
    """What the recipe's lots begin with, the next number, and how many digits it has."""
    lots = [kept.batch.lot for kept in one.computed.batches]
    numbered = [m for lot in lots if (m := re.fullmatch(r"(.*?)(\d+)", lot))]
    if numbered:
        last = max(numbered, key=lambda m: int(m[2]))
        return last[1], int(last[2]) + 1, len(last[2])
    initials = (
        "".join(word[0] for word in re.findall(r"[A-Za-z]+", one.computed.model.title)).upper() or "LOT"
    )
    return f"{initials[:4]}-", 1, 3


def record_lines(one: Proofed, lot: str, poured: date, by: str | None) -> list[str]:
    """The lines of a new record, without indentation; weights to be filled in stand as comments."""
    formula, figures = one.computed.resolved.formula, one.computed.figures
    nominal = to_weigh(formula, figures, one.computed.pantry)
    units = one.computed.settings.units
    scale = Scale(formula.scale_step, units)
    width = max(len(name) for name in nominal) + 1
    weights = [
        f"  {name + ':':<{width}}   # {scale.weigh(grams).main} {units}" for name, grams in nominal.items()
    ]
    return [
        f"lot: {_text(lot)}",
        f"poured: {poured.isoformat()}",
        f"formula: {_text(one.computed.fingerprint)}",
        *([f"by: {_text(by)}"] if by else []),
        *_stock(formula.stock),
        "as-weighed:   # write what the scale showed",
        *weights,
        *_later(
            scale, units, poured + timedelta(days=cure_days(one.computed.model, one.computed.settings).usual)
        ),
    ]


def _later(scale: Scale, units: str, ready: date) -> list[str]:
    """What comes into a record later, as comments with an example."""
    fresh, cured = (f"{scale.weigh(grams).main} {units}" for grams in (130.0, 117.0))
    return [
        f"# weighed: {{0: {fresh}, 28: {cured}}}   # a marked bar, by days after the pour",
        f"# free-alkali: {{test: phenolphthalein on the cut face, result: none, on: {ready.isoformat()}}}",
    ]


def _stock(stock: Stock) -> list[str]:
    """How strong the stocks were that it was weighed from."""
    kept = (("sodium", stock.sodium), ("potassium", stock.potassium))
    said = [f"{metal}: {show(100 * strength, 4)} %" for metal, strength in kept if strength is not None]
    return [f"lye-stock: {{{', '.join(said)}}}"] if said else []


def _text(value: str) -> str:
    return (
        value
        if re.fullmatch(r"[A-Za-z][\w -]*\w|[0-9a-f]*[a-df][0-9a-f]*", value)
        else '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    )


def _with_record(
    text: str, tree: Tree, end: int, one: Proofed, lot: str, poured: date, by: str | None
) -> tuple[str, str]:
    newline = newline_of(text)
    lines = record_lines(one, lot, poured, by)
    key = tree.keys.get(("batches",))
    at = _after_block(text, tree, key.start if key else None, end)
    if key is None:
        indent, head = "  ", ["batches:"]
    elif isinstance(tree.data["batches"], list) and tree.data["batches"]:
        first = tree.values["batches", 0]
        line_start = max(text.rfind("\n", 0, first.start), text.rfind("\r", 0, first.start)) + 1
        before = text[line_start : first.start]
        if not re.fullmatch(r"[ ]*-[ ]+", before):
            raise CannotRecord("the batches are written in brackets; write them as a list with dashes first")
        indent, head = before[: before.index("-")], []
    else:
        raise CannotRecord("`batches:` is there and empty; take the line out first")
    block = newline.join(
        [*head, *(f"{indent}{'- ' if i == 0 else '  '}{line}" for i, line in enumerate(lines))]
    )
    lead = "" if at == 0 or text[at - 1] in "\n\r" else newline
    return apply(text, [Edit(at, at, f"{lead}{block}{newline}")]), block


def _after_block(text: str, tree: Tree, key: int | None, end: int) -> int:
    """Where a line may be set in: behind the batches, or before `signed:`, or at the end."""
    tops = sorted(span.start for path, span in tree.keys.items() if len(path) == 1)
    signed = tree.keys.get(("signed",))
    if key is not None:
        at = min((start for start in tops if start > key), default=end)
    else:
        at = signed.start if signed else end
    while at > 0:
        previous = text.rfind("\n", 0, at - 1) + 1
        if at == end and key is None:
            break
        line = text[previous:at].strip()
        if (
            previous < at
            and (line == "" or (line.startswith("#") and text[previous] == "#"))
            and previous > (key or 0)
        ):
            at = previous
        else:
            break
    return at


def _same_and_one_more(old: Tree, new: Tree, whole: bool) -> None:
    before: dict[str, Any] = old.data or {}
    after: dict[str, Any] = new.data or {}
    kept = {k: v for k, v in after.items() if k != "batches"} == {
        k: v for k, v in before.items() if k != "batches"
    }
    had: list[Any] = before.get("batches") or []
    if not (
        whole
        and kept
        and (after.get("batches") or [])[: len(had)] == had
        and len(after["batches"]) == len(had) + 1
    ):
        raise CannotRecord("the record cannot be set in safely; nothing was written")
