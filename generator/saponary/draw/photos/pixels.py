"""From an opened photo to plain pixels: right-way-up, in sRGB, on white, no larger than is asked for."""

from __future__ import annotations

import math
from io import BytesIO

from PIL import Image, ImageCms
from PIL.ImageFile import ImageFile

_ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
# A colour profile describes a device in some kilobytes; print profiles reach two megabytes.
_MAX_PROFILE = 4_000_000
# A strip of paper photographed whole: taller than this it would be no picture on a page.
TALLEST = 4.0


def plain_pixels(image: ImageFile, widest: int) -> Image.Image:
    """The photo as RGB, at most `widest` wide and never larger than it came."""
    if image.format == "JPEG":
        image.draft(None, _stored_fit(image.size, _orientation(image), widest))
    image.load()
    profile = image.info.get("icc_profile")
    orientation = _orientation(image)
    picture: Image.Image = _simple_mode(image)
    size = _stored_fit(picture.size, orientation, widest)
    if size != picture.size:
        picture = picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    if orientation in _TURNS:
        picture = picture.transpose(_TURNS[orientation])
    picture = _on_white(picture, profile if isinstance(profile, bytes) else b"")
    # Made anew from the bare samples: nothing that hung on the source can come along.
    return Image.frombytes("RGB", picture.size, picture.tobytes())


def fit(size: tuple[int, int], widest: int) -> tuple[int, int]:
    """The size at which a picture is at most `widest` wide, in its own proportions, never larger."""
    width, height = size
    scale = min(1.0, widest / width, widest * TALLEST / height)
    return max(1, math.floor(width * scale + 0.5)), max(1, math.floor(height * scale + 0.5))


def _stored_fit(size: tuple[int, int], orientation: int, widest: int) -> tuple[int, int]:
    """The same for a picture that is still as it was stored; the last four orientations lie on a side."""
    if orientation < 5:
        return fit(size, widest)
    height, width = fit((size[1], size[0]), widest)
    return width, height


def _orientation(image: Image.Image) -> int:
    try:
        found = image.getexif().get(_ORIENTATION, 1)
    except Exception:  # a mangled head raises anything; such a photo is taken as it lies
        return 1
    return found if isinstance(found, int) and 1 <= found <= 8 else 1


def _simple_mode(image: Image.Image) -> Image.Image:
    """As L, RGB, LA, RGBA or CMYK."""
    if image.mode.startswith("I;16") or image.mode == "I":
        # The library cuts such samples off at 255 instead of scaling them.
        import numpy as np

        deep = np.asarray(image).clip(0, 65535).astype(np.uint16)
        return Image.fromarray(((deep - (deep >> 8) + 128) >> 8).astype(np.uint8))
    if "transparency" in image.info and image.mode in ("1", "L", "RGB", "P"):
        return image.convert("RGBA")
    if image.mode == "1":
        return image.convert("L")
    if image.mode == "P":
        return image.convert("RGB")
    if image.mode in ("PA", "La", "RGBa"):
        return image.convert("RGBA")
    return image if image.mode in ("L", "RGB", "LA", "RGBA", "CMYK") else image.convert("RGB")


def _on_white(picture: Image.Image, profile: bytes) -> Image.Image:
    alpha = picture.getchannel("A") if picture.mode in ("LA", "RGBA") else None
    if alpha is not None:
        picture = picture.convert("L" if picture.mode == "LA" else "RGB")
    picture = _in_srgb(picture, profile)
    if alpha is None:
        return picture
    ground = Image.new("RGB", picture.size, "white")
    ground.paste(picture, mask=alpha)
    return ground


def _srgb() -> ImageCms.ImageCmsProfile:
    # The library's own types leave open what it makes.
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))  # pyright: ignore[reportUnknownMemberType, reportUnknownArgumentType]


def _in_srgb(picture: Image.Image, profile: bytes) -> Image.Image:
    """Through the photo's own colour profile where it has a usable one; else it is taken for sRGB."""
    if profile and len(profile) <= _MAX_PROFILE:
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            turned = ImageCms.profileToProfile(
                picture,
                source,
                _srgb(),
                renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
                outputMode="RGB",
                flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
            )
        except Exception:  # a broken profile, or one for another kind of picture
            turned = None
        if turned is not None:
            return turned
    return picture if picture.mode == "RGB" else picture.convert("RGB")
