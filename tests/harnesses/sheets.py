"""Harness of hostile tables: whatever a table holds, it gives recipes that can be read or findings, soon and with little memory."""

from __future__ import annotations

import io
import random
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

from openpyxl import Workbook

from harnesses.harness import Harness, Score
from saponary.book.recipe_text import parse_recipe
from saponary.build.begin import Asked, settings_of
from saponary.build.from_table import recipes_from
from saponary.pantry.standard import standard
from saponary.reading.findings import Finding, errors

BOOK = settings_of(Asked())
"""The settings of a new book."""
SECONDS = 10.0
"""Of the processor, for one table; a common one takes a tenth."""
LONGEST = 400
"""Letters of a message or a hint."""

_OILS = (
    "Olive oil",
    "Coconut oil",
    "Shea butter",
    "castor",
    "olive (virgin)",
    "Palm oil, organic",
    "zzz",
    "",
    " ",
)
_NUMBERS = (
    "600", "300 g", "1/2", "0", "-5", "1e308", "nan", "inf", "9" * 40, "9" * 5000, "0." + "0" * 400 + "1", "1.000,5", "1,000",
    "=1+1", "=cmd|' /C calc'!A0", "٦٠٠", "１２３", "٫٥", "1 000", "12 %", "100 %", "%", "g", "0.0000001", "1000000 kg", "1e5", "²",
)  # fmt: skip
_ROWS = ("Water", "NaOH", "KOH", "Superfat", "Total", "Lye strength")
_ODD = (
    "<script>alert(1)</script>", "{lye = 1 g}", "<!-- x -->", "---", "...", "\u202eabc", "a\u2028b", "\x00", "\ud800", "x" * 40_000,
    "con", "../../etc/passwd", "&#123;lye&#125;", "\\", '"', "'", "!!python/object:os.system x", "*a", "&a", "#", "@SUM(1)", "\x1b[31m",
)  # fmt: skip


def _cells(chance: random.Random) -> list[list[str]]:
    """A table's rows: a title, headings, ingredients and what does not belong."""

    def odd(usual: str) -> str:
        return usual if chance.random() < 0.8 else chance.choice(_ODD)

    rows = [[odd(f"Bar {chance.randrange(9)}")]] if chance.random() < 0.5 else []
    rows.append(
        chance.choice(
            [["Oil", "Grams"], ["ingredient", "%"], ["Oil", "Weight (oz)", "%"], ["Öl", "Menge (g)"]]
        )
    )
    for _ in range(chance.randrange(8)):
        name = chance.choice(_OILS) if chance.random() < 0.7 else chance.choice(_ROWS)
        number = str(chance.randrange(1, 900)) if chance.random() < 0.6 else chance.choice(_NUMBERS)
        rows.append([odd(name), odd(number), chance.choice(("", "", "10", chance.choice(_NUMBERS)))])
    if chance.random() < 0.2:
        chance.shuffle(rows)
    return rows


def _csv(rows: list[list[str]], chance: random.Random) -> bytes:
    mark = chance.choice(",;\t|")
    end = chance.choice(["\n", "\r\n", "\r", "\n\n\n"])
    text = end.join(mark.join(cell if chance.random() < 0.9 else f'"{cell}' for cell in row) for row in rows)
    code = chance.choice(["utf-8", "utf-8-sig", "utf-16", "utf-32", "utf-7", "cp1252", "cp500", "shift_jis"])
    data = text.encode(code, "replace" if code != "utf-8" else "surrogatepass")
    for _ in range(chance.choice([0, 0, 0, 3])):
        at = chance.randrange(len(data) or 1)
        data = data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
    return data


def _workbook(rows: list[list[str]], chance: random.Random) -> bytes:
    book = Workbook()
    for number in range(chance.choice([1, 1, 3])):
        sheet = book.active if number == 0 else book.create_sheet()
        for at, row in enumerate(rows, 1):
            for column, cell in enumerate(row, 1):
                plain = "".join(c for c in cell if c.isprintable() and not 0xD800 <= ord(c) <= 0xDFFF)[
                    :32_000
                ]
                number_ = plain.isascii() and plain.isdigit() and len(plain) < 15
                sheet.cell(at, column, float(plain) if number_ else plain)  # type: ignore[union-attr]
        if chance.random() < 0.05:
            sheet.cell(1_048_576, 16_384, "far")  # type: ignore[union-attr]
    out = io.BytesIO()
    book.save(out)
    data = out.getvalue()
    return changed_part(data, chance) if chance.random() < 0.4 else data


_MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
_LAUGHS = "".join(f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefghi", "bcdefghij", strict=True))
BOMBS: tuple[Callable[[], bytes], ...] = (
    lambda: f"<worksheet {_MAIN}><sheetData>{'<row/>' * 3_000_000}</sheetData></worksheet>".encode(),
    lambda: f'<sst {_MAIN}>{"<si><t>abcdefgh</t></si>" * 2_000_000}</sst>'.encode(),
    lambda: b" " * 300_000_000,
    lambda: (
        f'<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a "aaaaaaaaaa">{_LAUGHS}]><worksheet {_MAIN}><sheetData><row>'
        '<c t="inlineStr"><is><t>&j;</t></is></c></row></sheetData></worksheet>'
    ).encode(),
    lambda: (
        f'<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a SYSTEM "file:///etc/hostname">]><worksheet {_MAIN}><sheetData>'
        '<row><c t="inlineStr"><is><t>&a;</t></is></c></row></sheetData></worksheet>'
    ).encode(),
    lambda: f'<worksheet {_MAIN}><sheetData><row r="999999999"><c r="XFD999999999"><v>1</v></c></row></sheetData></worksheet>'.encode(),
    lambda: b"",
)  # fmt: skip
"""What a part of a workbook may be: small in the archive, huge once it is read."""


def with_part(data: bytes, name: str, part: bytes) -> bytes:
    """A workbook with one of its parts another."""
    source, out = zipfile.ZipFile(io.BytesIO(data)), io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as made:
        for each in source.namelist():
            made.writestr(each, part if each == name else source.read(each))
    return out.getvalue()


def changed_part(data: bytes, chance: random.Random) -> bytes:
    """One part a bomb, or with bytes changed."""
    name = chance.choice(zipfile.ZipFile(io.BytesIO(data)).namelist())
    if chance.random() < 0.1:
        return with_part(data, name, chance.choice(BOMBS)())
    part = bytearray(zipfile.ZipFile(io.BytesIO(data)).read(name))
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(part) or 1)
        part[at : at + 1] = chance.choice([b"", b"<", b"&", b"9", b"\xff", b'"', bytes(part[at : at + 30])])
    return with_part(data, name, bytes(part))


def fault_of(data: bytes) -> str | None:
    """What is wrong with what is made of a table."""
    began = time.process_time()
    try:
        recipes, told = recipes_from(data, "table.csv", BOOK, standard())
    except Exception as error:
        return f"{type(error).__name__} {error}"[:300]
    took = time.process_time() - began
    if took > SECONDS:
        return f"takes {took:.0f} s"
    if not recipes and not any(one.severity == "error" for one in told):
        return "neither a recipe nor a finding"
    long = next((one for one in told if max(len(one.message), len(one.hint)) > LONGEST), None)
    if long is not None:
        return f"says {len(long.message)} letters: {long.message[:80]}"
    return next((said for name, text in recipes.items() if (said := _unread(name, text))), None)


def _unread(name: str, text: str) -> str | None:
    """Why a recipe that was made cannot be read."""
    recipe = parse_recipe(f"recipes/{name}.md", text)
    found: list[Finding] = errors(tuple(recipe.findings))
    return f"{name}: {found[0].message}" if found else None


def sheets(folder: Path, chance: random.Random, tries: int) -> Score:
    """Tables as text in several encodings, and workbooks, whole and broken."""
    score = Score()
    for turn in range(tries):
        rows = _cells(chance)
        data = (_csv if chance.random() < 0.6 else _workbook)(rows, chance)
        fault = fault_of(data)
        score.count(f"{turn}: {fault}; {data[:200]!r}" if fault else None)
    return score


HARNESSES = (Harness("hostile tables brought in", sheets, 3_000, 10),)
