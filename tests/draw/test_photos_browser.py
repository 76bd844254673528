"""Every published variant is decoded by another program than the one that made it: a browser."""

from __future__ import annotations

import re
import subprocess
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from saponary.draw.photos.facts import WIDTHS, PhotoFault
from saponary.draw.photos.publish import variants_of

PAGE = """<!doctype html><title>decoding</title>{images}<p id="told"></p><script>
addEventListener("load", () => {{ told.textContent = [...document.images]
  .map(i => `${{i.naturalWidth}}x${{i.naturalHeight}}`).join(" "); }});</script>"""


@pytest.mark.browser
def test_a_browser_decodes_every_variant_at_its_size(tmp_path: Path) -> None:
    whole = Image.radial_gradient("L").resize((1700, 1100)).convert("RGB")
    out = BytesIO()
    whole.save(out, "JPEG", quality=90)
    made = variants_of(out.getvalue())
    assert not isinstance(made, PhotoFault) and len(made) == 2 * len(WIDTHS)
    for variant in made:
        (tmp_path / variant.name).write_bytes(variant.data)
    page = tmp_path / "page.html"
    page.write_text(PAGE.format(images="".join(f'<img src="{v.name}">' for v in made)))
    shown = subprocess.run(
        ["chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
         f"--user-data-dir={tmp_path / 'profile'}", "--virtual-time-budget=4000", "--dump-dom", page.as_uri()],
        capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    told = re.search(r'id="told">([^<]*)<', shown.stdout)
    assert told is not None
    assert told[1].split() == [f"{v.width}x{v.height}" for v in made]
