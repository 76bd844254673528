"""The variants of a photo as a store keeps them: a line that says how they follow, then their bytes."""

from __future__ import annotations

import json
from collections.abc import Sequence

from saponary.assets import for_user, stamps
from saponary.assets.step import Step
from saponary.assets.store import Key
from saponary.draw.photos.facts import Variant

PHOTO = Step("photo", ("codecs", "widths", "file"), ("draw/photos",))

_CODECS = ("pil", "webp", "libjpeg_turbo", "littlecms2")


def key_of(data: bytes, widths: Sequence[int]) -> Key:
    """The key of a photo's variants; another encoder writes other bytes and has its own."""
    codecs = for_user.made(("codecs", stamps.stamp(stamps.LIBRARIES)), _codecs)
    return PHOTO.key(codecs, sorted(set(widths)), data)


def _codecs() -> dict[str, str | None]:
    from PIL import features  # where it is not kept

    return {name: features.version(name) for name in _CODECS}


def packed(variants: Sequence[Variant]) -> bytes:
    index = json.dumps([[v.name, v.type, v.width, v.height, len(v.data)] for v in variants]).encode()
    return index + b"\n" + b"".join(v.data for v in variants)


def unpacked(kept: bytes) -> list[Variant] | None:
    """The variants; None where these bytes hold none."""
    index, _, blobs = kept.partition(b"\n")
    variants: list[Variant] = []
    at = 0
    try:
        for name, kind, width, height, length in json.loads(index):
            variants.append(Variant(name, kind, width, height, blobs[at : at + length]))
            at += length
    except (ValueError, TypeError):
        return None
    return variants if at == len(blobs) and variants else None
