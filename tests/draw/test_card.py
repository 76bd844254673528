"""The card of a recipe: its size, its two halves, its bytes."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pytest
from PIL import Image, ImageFont

from saponary.assets.fonts import font_files
from saponary.draw.card import Card
from saponary.draw.draw_card import draw_card

PAPER = (246, 244, 236)


def photo(colour: str) -> bytes:
    out = BytesIO()
    Image.new("RGB", (96, 72), colour).save(out, "JPEG")
    return out.getvalue()


SVG = '<svg viewBox="0 0 200 100"><path fill="#0000ff" d="M0 0h200v100h-200z"/></svg>'
ALONE = Card("A Book", "A Bar", "It has one colour.", SVG, None)
BESIDE = replace(ALONE, photo=photo("#ff0000"))


def seen(card: Card) -> Image.Image:
    return Image.open(BytesIO(draw_card(card))).convert("RGB")


def near(image: Image.Image, at: tuple[int, int], colour: tuple[int, int, int]) -> bool:
    return image.getpixel(at) == pytest.approx(colour, abs=6)


def test_it_has_the_size_that_is_told_and_the_same_bytes_each_time() -> None:
    for card in (ALONE, BESIDE):
        made = draw_card(card)
        image = Image.open(BytesIO(made))
        assert image.size == (1200, 630) and image.format == "JPEG" and not image.getexif()
        assert "comment" not in image.info and made == draw_card(card)


def test_the_photo_takes_the_right_and_the_drawing_stands_left() -> None:
    image = seen(BESIDE)
    assert all(near(image, at, (254, 0, 0)) for at in ((500, 5), (1190, 5), (500, 620), (1190, 620)))
    assert near(image, (185, 250), (0, 0, 255)) and near(image, (400, 250), PAPER)


def test_without_a_photo_the_drawing_is_560_wide() -> None:
    image = seen(ALONE)
    row = [x for x in range(1200) if near(image, (x, 315), (0, 0, 255))]
    assert len(row) == pytest.approx(560, abs=4) and row[0] == pytest.approx(565, abs=3)


@pytest.mark.parametrize(
    "words", ["", "Bar", "The Bar of the Northernmost Wall by the Harbour " * 9, "W" * 200]
)
@pytest.mark.parametrize("card", [ALONE, BESIDE], ids=["alone", "beside"])
def test_words_of_any_length_stay_on_their_panel(card: Card, words: str) -> None:
    image = seen(replace(card, book=words, title=words, sentence=words))
    margin = image.crop((450, 0, 484, 630)).getcolors(30_000) or []
    assert all(tone == pytest.approx(PAPER, abs=16) for _, tone in margin)
    foot = image.crop((0, 606, 484, 630)).getcolors(30_000) or []
    assert all(tone == pytest.approx(PAPER, abs=16) for _, tone in foot)


def test_a_longer_title_is_set_smaller() -> None:
    def ink(title: str) -> int:
        image = (
            seen(replace(BESIDE, title=title, sentence="", book="")).crop((60, 330, 446, 400)).convert("L")
        )
        return sum(image.histogram()[:90])

    assert 0 < ink("Bar of the Northernmost Harbour Wall and Sea") / 12 < ink("Bar")


WORDS = "AV of To Ta Yo, fi ffl Öl “quoted” o’clock T. V. — made on a cold morning by an open door"


@pytest.mark.parametrize("turn", range(0, 20, 3))
def test_a_line_is_broken_where_the_library_paints_it_too_wide(turn: int) -> None:
    """Against Pillow's own measure of a whole line: as many words as fit stand on one, and one more on two."""
    words = WORDS.split(" ")[turn:] + WORDS.split(" ")[:turn]
    face = BytesIO(font_files()["SourceSerifPro-Regular.ttf"])
    font = ImageFont.truetype(face, 26, layout_engine=ImageFont.Layout.BASIC)
    wide = [font.getbbox(" ".join(words[: n + 1]), anchor="ls")[2] for n in range(len(words))]
    most = sum(one <= 386 for one in wide)
    fits, longer = (
        seen(replace(ALONE, book="", title="", sentence=" ".join(words[:n]))) for n in (most, most + 1)
    )
    assert lowest_ink(longer) > lowest_ink(fits) + 20


def lowest_ink(image: Image.Image) -> int:
    """How far down the words reach."""
    words = image.crop((0, 0, 490, 630)).convert("L")
    box = words.point([255 * (tone < 128) for tone in range(256)]).getbbox()
    assert box is not None
    return box[3]
