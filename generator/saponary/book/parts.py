"""A book's settings and its own pantry, each from its one YAML file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Generic, TypeVar

from pydantic import BaseModel

from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.pantry import own as pantry_file
from saponary.pantry.model import Pantry
from saponary.pantry.standard import standard
from saponary.quantity.rounding import as_decimal
from saponary.reading.decode import text_of
from saponary.reading.files import Files
from saponary.reading.findings import Finding
from saponary.reading.published_text import BOOK, PANTRY, Said, said
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Tree
from saponary.reading.yaml_tree import read_yaml
from saponary.schema import validate as schema
from saponary.schema.pantry import PantryFile
from saponary.schema.settings import Purity, Settings
from saponary.schema.waivers import Waived, placed

M = TypeVar("M", bound=BaseModel)
V = TypeVar("V")


@dataclass(frozen=True)
class PartRead(Generic[V]):
    """What one of these files says; `texts` of it are published, `waived` are the rules it sets aside."""

    value: V
    texts: tuple[Said, ...] = ()
    waived: tuple[Waived, ...] = ()
    findings: tuple[Finding, ...] = ()
    tree: Tree = field(default_factory=Tree)
    unread: bool = False
    """Whether the file is there, and what it holds for every sum could not be read."""


def read_settings(files: Files) -> PartRead[Settings]:
    """The settings of a book; the usual ones where it has none, or where they do not hold."""
    given, tree, findings = read_yaml_file(files, SETTINGS_FILE, Settings)
    if given is None:
        return PartRead(Settings(), findings=tuple(findings), unread=bool(findings))
    settings, found = _with_sound_purity(given, tree)
    texts, waived = tuple(said(tree, SETTINGS_FILE, BOOK)), placed(given.waive, tree, SETTINGS_FILE)
    return PartRead(settings, texts, waived, (*findings, *found), tree, unread=bool(found))


def read_pantry(files: Files) -> PartRead[Pantry]:
    """The standard pantry with the book's own entries over it."""
    own, tree, findings = read_yaml_file(files, PANTRY_FILE, PantryFile)
    if own is None:
        unread = bool(findings)
        return PartRead(replace(standard(), unread=unread), findings=tuple(findings), unread=unread)
    pantry, found = pantry_file.apply(standard(), own, tree, PANTRY_FILE)
    texts = (*said(tree, PANTRY_FILE, PANTRY), *_mould_names(tree))
    waived = placed(own.waive, tree, PANTRY_FILE)
    if any(one.severity == "error" for one in findings):
        pantry = replace(pantry, unread=True)
    return PartRead(pantry, texts, waived, (*findings, *found))


def _mould_names(tree: Tree) -> Iterator[Said]:
    """The ids of the maker's own moulds, which pages show as names."""
    for path in tree.keys:
        if len(path) == 2 and path[0] == "moulds":
            yield Said(str(path[1]).replace("-", " "), tree.place(PANTRY_FILE, path, key=True))


def read_yaml_file(files: Files, name: str, model: type[M]) -> tuple[M | None, Tree, list[Finding]]:
    """One of the book's YAML files, none of which it must have."""
    if not files.has(name):
        return None, Tree(), []
    text, fault = text_of(files, name)
    if text is None:
        return None, Tree(), [fault] if fault else []
    shift = 1 if text.startswith("\ufeff") else 0
    tree, findings = read_yaml(text[shift:], name, offset=shift)
    if findings and tree.data is None:
        return None, tree, findings
    if tree.data is None:
        tree.data = {}
    value, faults = schema.validate(model, tree, name)
    return value, tree, findings + faults


def _with_sound_purity(settings: Settings, tree: Tree) -> tuple[Settings, list[Finding]]:
    """The settings, an alkali's purity that cannot be put aside, and what is wrong with it."""
    report = Reporter(tree, SETTINGS_FILE, "sense")
    for name in ("sodium", "potassium"):
        given = getattr(settings.purity, name)
        if given is not None and not 0.5 <= given.fraction <= 1.0:
            report.add(
                ("purity", name),
                f"a purity of {as_decimal(100 * given.fraction, 6)} % is not a purity that is sold",
                "from 50 % to 100 %",
            )
    sound = settings.model_copy(update={"purity": Purity()}) if report.findings else settings
    return sound, report.findings
