"""A drawing of ours as pixels: the outlines of its SVG, flat, with their edges and without patterns.

It reads what `draw` itself writes (paths of straight steps, boxes, ellipses, clips, a face within a face),
and is no reader of SVG at large.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import cos, pi, sin
from xml.etree import ElementTree

from PIL import Image, ImageChops, ImageDraw

Points = list[tuple[float, float]]
Element = ElementTree.Element

_DRAWN = 750
"""Pixels that it is at least wide when it is drawn, before it is made as small as it is wanted."""
_STYLE = ("fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-opacity")
_STEP = re.compile(r"[A-Za-z]|-?\d*\.?\d+")
_ARGUMENTS = {"m": 2, "l": 2, "h": 1, "v": 1, "z": 0}


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
    image = Image.new("RGB", (size[0] * fine, size[1] * fine), ground)
    scale = image.width / width
    ids = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
    _Painter(image, ids, ink, _Place(scale, -left * scale, -top * scale)).all(root, {})
    return image.resize(size, Image.Resampling.BOX)


def rings(path: str) -> list[Points]:
    """The lines of path data made of straight steps. Raises ValueError where a step is another."""
    found: list[Points] = []
    x = y = 0.0
    words = _STEP.findall(path)
    at, command = 0, ""
    while at < len(words):
        if words[at].isalpha():
            command, at = words[at], at + 1
        kind = command.lower()
        if kind not in _ARGUMENTS:
            raise ValueError(f"{command!r} is no straight step")
        numbers = [float(word) for word in words[at : at + _ARGUMENTS[kind]]]
        at += len(numbers)
        from_x, from_y = (x, y) if command.islower() else (0.0, 0.0)
        if kind == "z":
            found[-1].append(found[-1][0])
            continue
        if kind != "v":
            x = from_x + numbers[0]
        if kind != "h":
            y = from_y + numbers[-1]
        if kind == "m":
            found.append([])
            command = "l" if command == "m" else "L"
        found[-1].append((x, y))
    return found


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
    ids: Mapping[str, Element]
    ink: str
    place: _Place

    def all(self, parent: Element, style: Mapping[str, str]) -> None:
        """Paint what an element holds, in its order."""
        for element in parent:
            own = {**style, **{name: element.attrib[name] for name in _STYLE if name in element.attrib}}
            if element.tag == "g":
                self._group(element, own)
            elif element.tag == "svg":
                replace(self, place=self.place.within(element)).all(element, own)
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
        layer, mask = self.image.copy(), Image.new("L", self.image.size)
        replace(self, image=layer).all(group, style)
        _fill(ImageDraw.Draw(mask), self._lines(shape), 255)
        self.image.paste(layer, mask=mask)

    def _shape(self, element: Element, style: Mapping[str, str]) -> None:
        lines = self._lines(element)
        fill, stroke = self._colour(style.get("fill", "")), self._colour(style.get("stroke", ""))
        if fill and len(lines) > 1 and style.get("fill-rule") == "evenodd":
            self.image.paste(fill, mask=_with_holes(lines, self.image.size))
        elif fill:
            self._paint(lambda pen, tone: _fill(pen, lines, tone), fill, style.get("fill-opacity", "1"))
        if stroke:
            width = float(style.get("stroke-width", "1")) * self.place.scale
            opacity = style.get("stroke-opacity", "1")
            self._paint(lambda pen, tone: _stroke(pen, lines, width, tone), stroke, opacity)

    def _paint(
        self, shape: Callable[[ImageDraw.ImageDraw, str | int], None], tone: str, opacity: str
    ) -> None:
        if float(opacity) == 1:
            return shape(ImageDraw.Draw(self.image), tone)
        mask = Image.new("L", self.image.size)
        shape(ImageDraw.Draw(mask), round(255 * float(opacity)))
        self.image.paste(tone, mask=mask)

    def _colour(self, written: str) -> str:
        """'' where nothing is painted, or a pattern."""
        if written == "currentColor":
            return self.ink
        return written if written.startswith("#") else ""

    def _lines(self, element: Element) -> list[Points]:
        if element.tag == "path":
            return [self.place.put(line) for line in rings(element.attrib["d"])]
        number = {name: float(value) for name, value in element.attrib.items() if _STEP.fullmatch(value)}
        if element.tag == "rect":
            x, y, right, low = number["x"], number["y"], number["width"], number["height"]
            corners = [(x, y), (x + right, y), (x + right, y + low), (x, y + low), (x, y)]
            return [self.place.put(corners)]
        return [self.place.put(_round(number["cx"], number["cy"], number["rx"], number["ry"]))]


def _fill(pen: ImageDraw.ImageDraw, lines: list[Points], tone: str | int) -> None:
    for line in lines:
        if len(line) > 2:
            pen.polygon(line, fill=tone)


def _stroke(pen: ImageDraw.ImageDraw, lines: list[Points], width: float, tone: str | int) -> None:
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
