"""The picture that is shown where somebody passes on a link to a recipe: the words, the drawing, the photo.

The same input gives the same bytes, with the same libraries: no date, no name and no setting goes into it.
"""

from __future__ import annotations

from functools import cache, lru_cache
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont

from saponary.assets.fonts import font_files
from saponary.draw.card import HEIGHT, WIDTH, Card
from saponary.draw.pixels import pixels, size_within

_PANEL = 490
"""Pixels of the width that the words take, on paper; the rest is the photo's."""
_LEFT, _RIGHT, _FOOT = 60, 446, 602
_PAPER, _INK, _QUIET = "#f6f4ec", "#20231d", "#4a4f43"
_QUALITY = 88

_REGULAR, _ITALIC = "SourceSerifPro-Regular.ttf", "SourceSerifPro-It.ttf"
_TITLES = (76, 68, 60, 52, 46, 40, 34)
_SENTENCES = (26, 23)
_LINE = 1.34
"""Of a sentence: from line to line, in sizes."""


def draw_card(card: Card) -> bytes:
    """A JPEG of WIDTH by HEIGHT pixels."""
    image = _begun(card.book).copy()
    pen = ImageDraw.Draw(image)
    if card.photo is None:
        _alone(image, card.drawing)
        _words(pen, card, 170)
    else:
        small = size_within(card.drawing, 250, 200)
        _stand(image, card.drawing, small, (_LEFT, _RIGHT, _LEFT), 316)
        _words(pen, card, 334)
        image.paste(_cut(card.photo), (_PANEL, 0))
    out = BytesIO()
    image.save(out, "JPEG", quality=_QUALITY, subsampling="4:2:0")
    return out.getvalue()


def _alone(image: Image.Image, drawing: str) -> None:
    """The drawing in the place of a photo."""
    size = size_within(drawing, 560, 450)
    left, right = _PANEL + (WIDTH - _PANEL - 560) // 2, WIDTH - (WIDTH - _PANEL - 560) // 2
    _stand(image, drawing, size, (left, right, (left + right - size[0]) // 2), (HEIGHT + size[1]) // 2)


def _stand(
    image: Image.Image, drawing: str, size: tuple[int, int], across: tuple[int, int, int], line: int
) -> None:
    """Stand the drawing on a line; `across` is where the line begins and ends, and where the drawing begins."""
    begins, ends, left = across
    image.paste(pixels(drawing, size, _PAPER, _INK), (left, line - size[1]))
    ImageDraw.Draw(image).line((begins, line, ends, line), _INK, 1)


def _words(pen: ImageDraw.ImageDraw, card: Card, top: int) -> None:
    """The title, and below it the sentence, with as many lines as there is room for."""
    size, lines = _set(card.title, _REGULAR, _TITLES, (_FOOT - top) * 2 // 3)
    y = top + size * 0.87
    for line in lines:
        pen.text((_LEFT, y), line, _INK, _font(_REGULAR, size), "ls")
        y += size
    y += 46 - size * 0.87
    if not card.sentence:
        return
    small, lines = _set(card.sentence, _REGULAR, _SENTENCES, int(_FOOT - y + 35), _LINE)
    for line in lines:
        pen.text((_LEFT, y), line, _INK, _font(_REGULAR, small), "ls")
        y += small * _LINE


@lru_cache(maxsize=4)
def _begun(book: str) -> Image.Image:
    """Paper with the name of the book, or what there is room for of it: all cards of a book begin so."""
    size, (line,) = _set(book, _ITALIC, (27, 24, 21), 30)
    image = Image.new("RGB", (WIDTH, HEIGHT), _PAPER)
    ImageDraw.Draw(image).text((_LEFT, 83), line, _QUIET, _font(_ITALIC, size), "ls")
    return image


def _set(text: str, face: str, sizes: tuple[int, ...], high: int, line: float = 1.0) -> tuple[int, list[str]]:
    """The largest size at which a text fits, and its lines; cut short where it fits at none."""
    size, lines, most = sizes[-1], [""], 1
    for size in sizes:
        lines, most = _lines(text, face, size), max(1, int(high / (size * line)))
        if len(lines) <= most and all(_fits(one, face, size) for one in lines):
            return size, lines
    kept = lines[:most]
    if len(lines) > most:
        kept[-1] = kept[-1].rstrip(" ,.;:") + "…"
    return size, [_cut_short(one, face, size) for one in kept]


def _lines(text: str, face: str, size: int) -> list[str]:
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if not lines[-1] or _fits(longer, face, size):
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _fits(text: str, face: str, size: int) -> bool:
    *before, last = text.split(" ")
    begins = sum(_measured(word, face, size)[0] for word in before)
    return begins + _measured(last, face, size)[1] <= _RIGHT - _LEFT


@lru_cache(maxsize=4096)
def _measured(word: str, face: str, size: int) -> tuple[float, float]:
    """Where the next word begins after one, and where what is painted of it ends, in pixels from its start.

    The plain engine sets a line letter by letter, so a line is as wide as its words are together; most of those
    of a book stand on many of its cards.
    """
    font = _font(face, size)
    # Where it ends is told by what is painted: the engine's own measure leaves out what hangs over.
    return font.getlength(f"{word} "), font.getbbox(word, anchor="ls")[2]


def _cut_short(text: str, face: str, size: int) -> str:
    while not _fits(text, face, size):
        text = text[:-2].rstrip(" ,.;:") + "…"
    return text


@cache
def _font(face: str, size: int) -> ImageFont.FreeTypeFont:
    # The plain engine sets the same line wherever it runs; the other is not in every build of the library.
    return ImageFont.truetype(BytesIO(font_files()[face]), size, layout_engine=ImageFont.Layout.BASIC)


def _cut(photo: bytes) -> Image.Image:
    """The photo over the whole of its panel. Less is cut on its left, where the tag of a lot lies as a rule."""
    width, height = WIDTH - _PANEL, HEIGHT
    with Image.open(BytesIO(photo), formats=("JPEG",)) as image:
        scale = max(width / image.width, height / image.height)
        wide, high = width / scale, height / scale
        left, top = (image.width - wide) / 3, (image.height - high) / 2
        box = (left, top, left + wide, top + high)
        return image.convert("RGB").resize((width, height), Image.Resampling.BICUBIC, box)
