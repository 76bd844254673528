"""A folder that remembers the variants of photos already made, by content.

One file a photo. It is written beside its place and moved in by rename, and its first line holds the
hash of all that follows, so that a file cut short or altered is known for what it is and made again.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path

from PIL import features

from saponary.draw.photos.facts import Variant
from saponary.draw.photos.publish import content_hash

_MAGIC = b"saponary photo variants 1 "
_CODECS = ("pil", "webp", "libjpeg_turbo", "littlecms2")


def entry(folder: Path, data: bytes, widths: Sequence[int]) -> Path:
    """Where the variants of a photo are kept; another encoder writes other bytes and has its own place."""
    codecs = "/".join(f"{name} {features.version(name)}" for name in _CODECS)
    maker = hashlib.sha256(codecs.encode()).hexdigest()[:8]
    return folder / f"{content_hash(data, widths)}-{maker}.variants"


def recall(place: Path) -> list[Variant] | None:
    """The variants kept there; nothing where there are none or they are damaged."""
    try:
        kept = place.read_bytes()
    except OSError:
        return None
    head, _, body = kept.partition(b"\n")
    if head != _MAGIC + hashlib.sha256(body).hexdigest().encode():
        return None
    index, _, blobs = body.partition(b"\n")
    variants: list[Variant] = []
    at = 0
    try:
        for name, kind, width, height, length in json.loads(index):
            variants.append(Variant(name, kind, width, height, blobs[at : at + length]))
            at += length
    except (ValueError, TypeError):
        return None
    return variants if at == len(blobs) and variants else None


def keep(place: Path, variants: list[Variant]) -> None:
    """Remember the variants. A folder that cannot be written to only costs time at the next build."""
    index = json.dumps([[v.name, v.type, v.width, v.height, len(v.data)] for v in variants]).encode()
    body = index + b"\n" + b"".join(v.data for v in variants)
    beside = ""
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(prefix=".new-", dir=place.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(_MAGIC + hashlib.sha256(body).hexdigest().encode() + b"\n" + body)
        Path(beside).replace(place)
    except OSError:
        if beside:
            Path(beside).unlink(missing_ok=True)
