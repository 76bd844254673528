"""Harnesses of the last bits: what the engine or the system's mathematics returns is off by a bit; no byte of a site is.

Processors, versions of numpy and system libraries differ in the last bits of a double. Here they are made to
differ more than any of them does.
"""

from __future__ import annotations

import dataclasses
import functools
import importlib
import math
import pkgutil
import random
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

import numpy as np

import saponary
from harnesses.children import begin_call
from harnesses.harness import Harness, Score
from saponary.cli.main import main
from support import write_book
from whole.edits import BOOK

_AS_MUCH = 1e-15
"""Of a figure; a double tells 2.2e-16 apart."""
_INEXACT = ("sin", "cos", "tan", "tanh", "arctan2", "exp", "log", "power", "hypot")
_OF_MATH = ("sin", "cos", "tan", "tanh", "atan2", "exp", "log", "log10", "pow", "hypot")
"""Functions that standards do not bind to the last bit."""


_TOO_LONG = re.compile(r"(?<![\d.])\d+\.\d{10,}|\b\d\.\d+[eE][-+]?\d+")
_TEXTS = (".html", ".json", ".svg", ".csv", ".xml", ".ics", ".js", ".css", ".txt")


def _modules() -> Iterator[ModuleType]:
    for found in pkgutil.walk_packages(saponary.__path__, "saponary."):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


def _off(value: Any, chance: random.Random) -> Any:
    """The same with each float in it off by a few of its last bits."""
    if isinstance(value, float):
        return value * (1 + chance.choice((-_AS_MUCH, 0.0, _AS_MUCH)))
    if isinstance(value, np.ndarray) and value.dtype.kind == "f":
        noise = np.random.default_rng(chance.randrange(2**32)).integers(-1, 2, value.shape)
        return value * (1 + 4.4e-16 * noise)
    if dataclasses.is_dataclass(value) and type(value).__module__.startswith("saponary.lye"):
        parts = {f.name: _off(getattr(value, f.name), chance) for f in dataclasses.fields(value) if f.init}
        return type(value)(**parts)  # type: ignore[operator]
    if type(value) in (tuple, list):
        return type(value)(_off(part, chance) for part in value)
    if isinstance(value, dict):
        return {key: _off(part, chance) for key, part in value.items()}
    return value


def _noisy(function: Callable[..., Any], chance: random.Random) -> Callable[..., Any]:
    @functools.wraps(function)
    def noisy(*given: Any, **named: Any) -> Any:
        return _off(function(*given, **named), chance)

    return noisy


def engine_off(chance: random.Random) -> int:
    """Every public function of the engine returns figures that are off; how many do."""
    made: dict[Callable[..., Any], Callable[..., Any]] = {}
    for module in _modules():
        for name, value in list(vars(module).items()):
            ours = isinstance(value, FunctionType) and value.__module__.startswith("saponary.lye")
            if ours and not value.__name__.startswith("_"):
                setattr(module, name, made.setdefault(value, _noisy(value, chance)))
    return len(made)


def library_off(chance: random.Random) -> int:
    """Sines, powers and their like are off; how many are."""
    made = {getattr(math, name): _noisy(getattr(math, name), chance) for name in _OF_MATH}
    places = 0
    for module in _modules():
        for name, value in list(vars(module).items()):
            if callable(value) and type(value).__name__.startswith("builtin") and value in made:
                setattr(module, name, made[value])
                places += 1
    for function, noisy in made.items():
        setattr(math, function.__name__, noisy)
    for name in _INEXACT:
        setattr(np, name, _noisy(getattr(np, name), chance))
    return places + len(_INEXACT)


def _built(root: Path, off: Callable[[], int] | None, press: bool) -> dict[str, bytes | str]:
    """What a new book of the same files is built to, by name; what was said of it under its own name."""
    write_book(root, BOOK)

    def call() -> int:
        if off is not None and off() < 10:
            raise AssertionError("hardly anything was put off")
        words = ["build", str(root), "--edition", "all", "--on", "2026-03-02"]
        return main([*words, "--press"] if press else words)

    child = begin_call(call)
    status = child.ended()
    files: dict[str, bytes | str] = {
        path.relative_to(root).as_posix(): path.read_bytes()
        for top in ("site", "private")
        for path in (root / top).rglob("*")
        if path.is_file()
    }
    return {**files, "said": f"{status} {child.said.replace(root.as_posix(), '')}"}


def too_long(files: Mapping[str, bytes | str]) -> list[str]:
    """Numbers with more figures than leave the program, and where they stand."""
    texts = (
        (name, data) for name, data in files.items() if name.endswith(_TEXTS) and isinstance(data, bytes)
    )
    return [f"{name}: {found}" for name, data in texts for found in _TOO_LONG.findall(data.decode())]


def _scored(folder: Path, chance: random.Random, tries: int, off: Callable[[random.Random], int]) -> Score:
    score = Score()
    plain = {press: _built(folder / f"plain-{press}", None, press) for press in {False, tries > 5}}
    for turn in range(tries):
        press = turn % 5 == 4 and tries > 5
        noise = random.Random(chance.random())
        found, was = _built(folder / str(turn), functools.partial(off, noise), press), plain[press]
        other = sorted(name for name in found.keys() | was.keys() if found.get(name) != was.get(name))
        score.count(f"{turn}: {other[:3]} of {len(was)}" if other or len(was) < 50 else None)
    long = too_long(plain[False])
    score.count(f"too long: {long[:5]}" if long else None)
    return score


def engine(folder: Path, chance: random.Random, tries: int) -> Score:
    return _scored(folder, chance, tries, engine_off)


def library(folder: Path, chance: random.Random, tries: int) -> Score:
    return _scored(folder, chance, tries, library_off)


HARNESSES = (
    Harness("figures off in their last bits", engine, 20, 1),
    Harness("the system's mathematics off in its last bits", library, 20, 1),
)
