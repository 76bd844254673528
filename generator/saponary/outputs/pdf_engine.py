"""WeasyPrint, imported only when a PDF is asked for, and fed only from the site in memory."""

from __future__ import annotations

import hashlib
import mimetypes
from collections.abc import Mapping
from datetime import datetime
from importlib import import_module
from typing import Any
from urllib.parse import unquote, urlsplit

from saponary.assets.fonts import FONTS_AT, font_files
from saponary.outputs.pdf_fit import fitted
from saponary.outputs.pdf_kind import PdfSheet
from saponary.outputs.pdf_tags import mend
from saponary.quantity.dataclass import dataclass

BASE = "https://book.invalid/"
"""Addresses of the site in memory. The name can never be looked up (RFC 2606), and nothing tries."""


_DATED = datetime(2000, 1, 1)
"""The date of every attachment: that of no clock, so that the same sheet is the same bytes."""


class PressMissing(Exception):
    """WeasyPrint's own libraries are not on this machine; the message says which."""


def ready() -> None:
    """Raise PressMissing, in one line, where PDFs cannot be made here."""
    try:
        import_module("weasyprint")
    except OSError as error:
        raise PressMissing(
            "PDFs need Pango, which is not on this machine (README.md, section PDFs, says which packages); "
            "everything else works without it"
        ) from error


@dataclass(frozen=True)
class SetPdf:
    """A PDF, and the names of the site's files that were asked for in setting it."""

    data: bytes
    shown: tuple[str, ...]


def set_sheet(files: Mapping[str, bytes], sheet: PdfSheet) -> SetPdf:
    """One sheet as a tagged PDF (PDF/UA-1). Nothing outside `files` and the package's fonts is read."""
    import weasyprint
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    fonts = font_files()
    shown: list[str] = []

    class FromTheBook(URLFetcher):  # type: ignore[misc]
        """Serves the site's own files, and nothing else."""

        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
            name = unquote(urlsplit(url).path).lstrip("/")
            if name.startswith(FONTS_AT):
                data = fonts.get(name.removeprefix(FONTS_AT))
            else:
                data = files.get(name)
                shown.append(name)
            if not url.startswith(BASE) or data is None:
                raise ValueError(f"{url} is not part of the book")
            return URLFetcherResponse(
                url, data, {"Content-Type": mimetypes.guess_type(name)[0] or "font/ttf"}
            )

    html: Any = weasyprint.HTML(string=sheet.html, base_url=BASE, url_fetcher=FromTheBook())
    attachments = [
        weasyprint.Attachment(
            string=item.data, name=item.name, description=item.about, created=_DATED, modified=_DATED
        )
        for item in sheet.attachments
    ]
    options: dict[str, Any] = {
        "pdf_variant": "pdf/ua-1",
        "attachments": attachments,
        "pdf_identifier": hashlib.md5(sheet.html.encode(), usedforsecurity=False).digest(),
    }
    pdf = fitted(html, **options).write_pdf(finisher=mend, **options)
    assert pdf is not None
    return SetPdf(bytes(pdf), tuple(dict.fromkeys(shown)))
