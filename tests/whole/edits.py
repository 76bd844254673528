"""A small book with something of every kind in it, and edits of every kind, as changes of a map of its files."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

from PIL import Image

from support import PLAIN

Files = dict[str, bytes]
Edit = Callable[[Files], None]


def photo(colour: tuple[int, int, int]) -> bytes:
    out = BytesIO()
    Image.new("RGB", (60, 40), colour).save(out, "JPEG")
    return out.getvalue()


def _recipe(title: str, more: str = "", notes: str = "") -> bytes:
    text = PLAIN.replace("Plain Bar", title).replace("superfat: 5 %\n", f"{more}superfat: 5 %\n", 1)
    return f"{text}{notes}".encode()


def _batches(lot: str, day: str) -> bytes:
    tested = "free-alkali: {test: paper, result: none, on: 2026-03-15}"
    return f"batches:\n  - lot: {lot}\n    poured: {day}\n    weighed: {{0: 128.2 g, 14: 118.9 g, 28: 115.1 g}}\n    {tested}\n".encode()


_CLASS = "---\ntitle: A day\nstudents: 5\nper-bench: 2\noils: 437 g\nrecipes: [plain]\n---\nThe class.\n"
_OWN = "colourants:\n  own: {name: Own, inci: CI 77492, fresh: '#a4503c', cured: '#b98f86', usual: [1 g/kg, 9 g/kg]}\n"
_POURED = (
    "portions:\n  - {name: a, share: 1/2, additions: [{what: own, amount: 2 g}]}\n  - {name: b, share: 1/2}\n"
    "pour:\n  - columns: {of: [a, b], count: 4}\n"
)
BOOK: Files = {
    "book.yaml": b"title: A Small Book\nmaker: Nobody\nbase-url: https://book.invalid\n",
    "pantry.yaml": f"{_OWN}oils:\n  castor: {{price: 9 / kg}}\nmoulds: {{tin: {{cavities: {{count: 6, volume: 90 ml}}}}}}\nscraps: {{odds: {{of: plain}}}}\n".encode(),
    "recipes/plain.md": _recipe("Plain", notes="See [it](lamp.md).\n"),
    "recipes/lamp.md": _recipe(
        "Lamp",
        "additions:\n  - {what: odds, amount: 100 g, at: pour}\npour:\n  - embeds: {of: odds, shape: round, across: 30 mm, count: 1}\n",
    ),
    "recipes/ochre.md": _recipe(
        "Ochre",
        "additions:\n  - {what: own, amount: 3 g, at: pour}\nphoto: {file: bar.jpg, day: 14, alt: A pale bar}\n",
    ),
    "recipes/third.md": _recipe("Third {superfat}", _POURED),
    "batches/ochre.yaml": _batches("O-1", "2026-02-01"),
    "photos/bar.jpg": photo((180, 120, 90)),
    "templates/waivers.html": b"{% extends 'base.html' %}{% block content %}own{% endblock %}",
    "classes/day.md": _CLASS.encode(),
}


def put(name: str, data: bytes) -> Edit:
    return lambda files: files.update({name: data})


def drop(name: str) -> Edit:
    return lambda files: _drop(files, name)


def _drop(files: Files, name: str) -> None:
    files.pop(name, None)


def move(name: str, to: str) -> Edit:
    def edit(files: Files) -> None:
        if name in files:
            files[to] = files.pop(name)

    return edit


def swap(name: str, old: str, new: str) -> Edit:
    def edit(files: Files) -> None:
        if name in files:
            files[name] = files[name].replace(old.encode(), new.encode())

    return edit


def both(*edits: Edit) -> Edit:
    def edit(files: Files) -> None:
        for one in edits:
            one(files)

    return edit


_PHOTO = "photo: {file: bar.jpg, day: 14, alt: A pale bar}\n"
EDITS: dict[str, Edit] = {
    "add recipe": put("recipes/new.md", _recipe("New", "additions:\n  - {what: kaolin, amount: 9 g, at: pour}\n")),
    "change recipe": swap("recipes/plain.md", "total: 1000 g", "total: 900 g"),
    "rename recipe": both(move("recipes/lamp.md", "recipes/lantern.md"), swap("recipes/plain.md", "lamp.md", "lantern.md")),
    "delete recipe": drop("recipes/third.md"),
    "add batch": put("batches/plain.yaml", _batches("P-1", "2026-03-01")),
    "change batch": swap("batches/ochre.yaml", "2026-02-01", "2026-02-03"),
    "rename batch": move("batches/ochre.yaml", "batches/plain.yaml"),
    "delete batch": drop("batches/ochre.yaml"),
    "add photo": both(
        put("photos/new.jpg", photo((90, 90, 90))),
        swap("recipes/plain.md", "superfat: 5 %\n", "photo: {file: new.jpg, day: 1, alt: A bar}\nsuperfat: 5 %\n"),
    ),
    "change photo": lambda files: files.update({n: photo((10, 200, 10)) for n in files if n.endswith("bar.jpg")}),
    "rename photo": both(move("photos/bar.jpg", "photos/deep/bar.jpg"), swap("recipes/ochre.md", "file: bar.jpg", "file: deep/bar.jpg")),
    "delete photo": both(drop("photos/bar.jpg"), drop("photos/deep/bar.jpg"), swap("recipes/ochre.md", _PHOTO, ""), swap("recipes/ochre.md", _PHOTO.replace("bar.jpg", "deep/bar.jpg"), "")),
    "add template": put("templates/words.html", b"{% extends 'base.html' %}{% block content %}few{% endblock %}"),
    "change template": swap("templates/waivers.html", "own", "our own"),
    "rename template": move("templates/waivers.html", "templates/style/90-own.css"),
    "delete template": drop("templates/waivers.html"),
    "add pantry": swap("pantry.yaml", "oils:\n", "oils:\n  olive: {price: 8.40 / kg}\n"),
    "change pantry": swap("pantry.yaml", "'#b98f86'", "'#c0a0a0'"),
    "rename pantry": both(*(swap(name, old, new) for name, old, new in (
        ("pantry.yaml", "  own: {name: Own", "  ours: {name: Own"), ("recipes/ochre.md", "what: own", "what: ours"), ("recipes/third.md", "what: own", "what: ours"),
    ))),
    "delete pantry": swap("pantry.yaml", "moulds: {tin: {cavities: {count: 6, volume: 90 ml}}}\n", ""),
    "add setting": swap("book.yaml", "maker:", "subtitle: Of few recipes\nmaker:"),
    "change setting": swap("book.yaml", "A Small Book", "A Smaller Book"),
    "rename setting": swap("book.yaml", "maker:", "place:"),
    "delete setting": swap("book.yaml", "base-url: https://book.invalid\n", ""),
    "add class": put("classes/other.md", _CLASS.replace("A day", "Another day").encode()),
    "change class": swap("classes/day.md", "437 g", "500 g"),
    "rename class": move("classes/day.md", "classes/evening.md"),
    "delete class": drop("classes/day.md"),
}  # fmt: skip
"""Every kind of edit of every kind of thing. One whose thing is not there does nothing."""
