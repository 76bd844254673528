"""A drawing of ours as pixels: the outlines of its SVG, flat, with their edges and without patterns.

It is painted with a byte a pixel, the number of a colour, and larger than it is wanted. It reads what `draw` itself writes (paths of straight steps and quadratic curves, boxes, ellipses, clips, a face within a face),
and is no reader of SVG at large.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from math import cos, pi, sin
from xml.etree import ElementTree

from PIL import Image, ImageChops, ImageDraw

from saponary.draw.tones import Tones

Points = list[tuple[float, float]]
Box = tuple[int, int, int, int]
Element = ElementTree.Element

_DRAWN = 750
"""Pixels that it is at least wide when it is drawn, before it is made as small as it is wanted."""
_STYLE = ("fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-opacity")
_NUMBER = re.compile(r"-?\d*\.?\d+")
_COMMAND = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_ARGUMENTS = {"m": 2, "l": 2, "h": 1, "v": 1, "q": 4, "t": 2}


def size_within(svg: str, width: int, height: int) -> tuple[int, int]:
    """The largest size, in pixels, at which a drawing fits a box."""
    _, _, wide, high = _box(ElementTree.fromstring(svg))
    scale = min(width / wide, height / high)
    return max(1, round(wide * scale)), max(1, round(high * scale))


def pixels(svg: str, size: tuple[int, int], ground: str, ink: str) -> Image.Image:
    """The drawing at `size` on a ground; `ink` is the colour of the text around it. Colours are written #rrggbb."""
    root = ElementTree.fromstring(svg)
    for element in root.iter():
        element.tag = element.tag.partition("}")[2] or element.tag
    left, top, width, _ = _box(root)
    fine = max(2, round(_DRAWN / size[0]))
    tones = Tones()
    image = Image.new("L", (size[0] * fine, size[1] * fine), tones.number(ground))
    scale = image.width / width
    ids = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
    _Painter(image, tones, ids, ink, _Place(scale, -left * scale, -top * scale)).all(root, {})
    return tones.coloured(image).reduce(fine)


def rings(path: str) -> list[Points]:
    """The lines of path data of straight steps and quadratic curves. Raises ValueError where a step is another."""
    found: list[Points] = []
    at, mirrored = (0.0, 0.0), (0.0, 0.0)
    for command, written in _COMMAND.findall(path):
        kind, numbers = command.lower(), [float(word) for word in _NUMBER.findall(written)]
        if kind == "z":
            found[-1].append(found[-1][0])
            continue
        if kind not in _ARGUMENTS:
            raise ValueError(f"{command!r} is no straight step, nor a quadratic curve")
        if kind == "m":
            found.append([])
        line, size = found[-1], _ARGUMENTS[kind]
        for i in range(0, len(numbers), size):
            given = _pairs(kind, numbers[i : i + size], at if command == kind else (0.0, 0.0), at)
            if kind in "qt":
                middle = given[0] if kind == "q" else mirrored
                line += _curve(*at, *middle, *given[-1])
                mirrored = 2 * given[-1][0] - middle[0], 2 * given[-1][1] - middle[1]
            else:
                line.append(given[-1])
                mirrored = given[-1]
            at = given[-1]
    return found


def _pairs(kind: str, numbers: list[float], origin: tuple[float, float], at: tuple[float, float]) -> Points:
    """The points that a step names, which count from `origin`; `at` is where it begins."""
    x, y = origin
    if kind == "h":
        return [(x + numbers[0], at[1])]
    if kind == "v":
        return [(at[0], y + numbers[0])]
    if kind == "q":
        return [(x + numbers[0], y + numbers[1]), (x + numbers[2], y + numbers[3])]
    return [(x + numbers[0], y + numbers[1])]


def _curve(x: float, y: float, by_x: float, by_y: float, to_x: float, to_y: float) -> Points:
    """A quadratic curve as four short lines, without its first point."""
    return [
        ((9 * x + 6 * by_x + to_x) / 16, (9 * y + 6 * by_y + to_y) / 16),
        ((x + 2 * by_x + to_x) / 4, (y + 2 * by_y + to_y) / 4),
        ((x + 6 * by_x + 9 * to_x) / 16, (y + 6 * by_y + 9 * to_y) / 16),
        (to_x, to_y),
    ]


def _box(root: Element) -> tuple[float, float, float, float]:
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    return left, top, width, height


@dataclass(frozen=True)
class _Place:
    """Where points of a drawing lie in the picture."""

    scale: float
    x: float
    y: float

    def put(self, line: Points) -> Points:
        return [(x * self.scale + self.x, y * self.scale + self.y) for x, y in line]

    def within(self, element: Element) -> _Place:
        """Of a drawing within the drawing that covers its box, from the middle."""
        x, y, width, height = (float(element.attrib[name]) for name in ("x", "y", "width", "height"))
        left, top, wide, high = _box(element)
        scale = max(width / wide, height / high)
        in_x, in_y = x + width / 2 - scale * (left + wide / 2), y + height / 2 - scale * (top + high / 2)
        return _Place(self.scale * scale, self.x + self.scale * in_x, self.y + self.scale * in_y)


@dataclass(frozen=True)
class _Painter:
    image: Image.Image
    tones: Tones
    ids: Mapping[str, Element]
    ink: str
    place: _Place
    read: dict[str, list[Points]] = field(default_factory=dict[str, list[Points]])

    def all(self, parent: Element, style: Mapping[str, str]) -> None:
        """Paint what an element holds, in its order."""
        for element in parent:
            own = {**style, **{name: element.attrib[name] for name in _STYLE if name in element.attrib}}
            if element.tag == "g":
                self._group(element, own)
            elif element.tag == "svg":
                replace(self, place=self.place.within(element), read={}).all(element, own)
            elif element.tag == "use":
                target = self.ids[element.attrib["href"].removeprefix("#")]
                self._shape(target, {"fill-rule": target.attrib.get("fill-rule", ""), **own})
            elif element.tag in ("path", "rect", "ellipse"):
                self._shape(element, own)

    def _group(self, group: Element, style: Mapping[str, str]) -> None:
        clip = group.attrib.get("clip-path", "")
        if not clip:
            return self.all(group, style)
        (shape,) = self.ids[clip.removeprefix("url(#").removesuffix(")")]
        lines = self._lines(shape)
        box = _around(lines, 0, self.image.size)
        layer, place = self.image.crop(box), self.place
        moved = _Place(place.scale, place.x - box[0], place.y - box[1])
        replace(self, image=layer, place=moved).all(group, style)
        self.image.paste(layer, box, _mask(box, lambda pen: _fill(pen, _from(box, lines), 1)))

    def _shape(self, element: Element, style: Mapping[str, str]) -> None:
        lines = self._lines(element)
        fill, stroke = self._colour(style.get("fill", "")), self._colour(style.get("stroke", ""))
        if fill and len(lines) > 1 and style.get("fill-rule") == "evenodd":
            box = _around(lines, 0, self.image.size)
            tone = self.tones.number(fill)
            self.image.paste(tone, box, _with_holes(_from(box, lines), (box[2] - box[0], box[3] - box[1])))
        elif fill:
            self._paint(_fill, lines, 0, fill, style.get("fill-opacity", "1"))
        if stroke:
            width = float(style.get("stroke-width", "1")) * self.place.scale
            opacity = style.get("stroke-opacity", "1")
            self._paint(partial(_stroke, width=width), lines, width, stroke, opacity)

    def _paint(
        self,
        shape: Callable[[ImageDraw.ImageDraw, list[Points], int], None],
        lines: list[Points],
        width: float,
        colour: str,
        opacity: str,
    ) -> None:
        """Each pixel once, however often the lines cross it."""
        if float(opacity) == 1:
            return shape(ImageDraw.Draw(self.image), lines, self.tones.number(colour))
        box = _around(lines, width, self.image.size)
        mask = _mask(box, lambda pen: shape(pen, _from(box, lines), 1))
        self.image.paste(self.tones.veiled(self.image.crop(box), colour, float(opacity), mask), box, mask)

    def _colour(self, written: str) -> str:
        """'' where nothing is painted, or a pattern."""
        if written == "currentColor":
            return self.ink
        return written if written.startswith("#") else ""

    def _lines(self, element: Element) -> list[Points]:
        if "id" in element.attrib:
            # What is shown more than once is read once.
            found = self.read.get(element.attrib["id"])
            if found is None:
                found = self.read[element.attrib["id"]] = self._outline(element)
            return found
        return self._outline(element)

    def _outline(self, element: Element) -> list[Points]:
        if element.tag == "path":
            return [self.place.put(line) for line in rings(element.attrib["d"])]
        number = {name: float(value) for name, value in element.attrib.items() if _NUMBER.fullmatch(value)}
        if element.tag == "rect":
            x, y, right, low = number["x"], number["y"], number["width"], number["height"]
            corners = [(x, y), (x + right, y), (x + right, y + low), (x, y + low), (x, y)]
            return [self.place.put(corners)]
        return [self.place.put(_round(number["cx"], number["cy"], number["rx"], number["ry"]))]


def _around(lines: list[Points], width: float, size: tuple[int, int]) -> Box:
    """The pixels of a picture that lines of a width may touch: left, top, right and foot."""
    points = [point for line in lines for point in line] or [(0.0, 0.0)]
    left, top = (max(0, int(min(point[i] for point in points) - width) - 1) for i in (0, 1))
    right, foot = (min(size[i], int(max(point[i] for point in points) + width) + 2) for i in (0, 1))
    return left, top, max(left, right), max(top, foot)


def _from(box: Box, lines: list[Points]) -> list[Points]:
    return [[(x - box[0], y - box[1]) for x, y in line] for line in lines]


def _mask(box: Box, shape: Callable[[ImageDraw.ImageDraw], None]) -> Image.Image:
    """What of a box is painted: a pixel is, or is not."""
    mask = Image.new("1", (box[2] - box[0], box[3] - box[1]))
    shape(ImageDraw.Draw(mask))
    return mask


def _fill(pen: ImageDraw.ImageDraw, lines: list[Points], tone: int) -> None:
    for line in lines:
        if len(line) > 2:
            pen.polygon(line, fill=tone)


def _stroke(pen: ImageDraw.ImageDraw, lines: list[Points], tone: int, width: float) -> None:
    """A line of no length is a dot, as round caps make it."""
    for line in lines:
        if len(set(line)) > 1:
            pen.line(line, fill=tone, width=max(1, round(width)))
        else:
            x, y = line[0]
            pen.ellipse((x - width / 2, y - width / 2, x + width / 2, y + width / 2), fill=tone)


def _with_holes(lines: list[Points], size: tuple[int, int]) -> Image.Image:
    """What lies inside an odd number of lines."""
    mask = Image.new("1", size)
    for line in lines:
        if len(line) < 3:
            continue
        left, top = (max(0, int(min(point[i] for point in line)) - 1) for i in (0, 1))
        right, low = (min(size[i], int(max(point[i] for point in line)) + 2) for i in (0, 1))
        if left < right and top < low:
            inside = Image.new("1", (right - left, low - top))
            ImageDraw.Draw(inside).polygon([(x - left, y - top) for x, y in line], fill=1)
            box = (left, top, right, low)
            mask.paste(ImageChops.logical_xor(mask.crop(box), inside), box)
    return mask


def _round(x: float, y: float, across: float, up: float) -> Points:
    return [(x + across * cos(i * pi / 32), y + up * sin(i * pi / 32)) for i in range(65)]
