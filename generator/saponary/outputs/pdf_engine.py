"""WeasyPrint, imported only when a PDF is asked for, and fed only from the site in memory."""

from __future__ import annotations

import hashlib
import mimetypes
from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import lru_cache
from importlib import import_module
from typing import Any
from urllib.parse import unquote, urlsplit

from saponary.assets.fonts import FONTS_AT, font_files
from saponary.outputs.pdf_fit import fitted
from saponary.outputs.pdf_kind import Attachment, PdfSheet, SetPdf
from saponary.outputs.pdf_tags import mend

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


def set_sheet(files: Mapping[str, bytes], sheet: PdfSheet) -> SetPdf:
    """One sheet as a tagged PDF (PDF/UA-1)."""
    html, shown = opened(files, sheet.html)
    options = settings() | {
        "attachments": carried(sheet.attachments),
        "pdf_identifier": hashlib.md5(sheet.html.encode(), usedforsecurity=False).digest(),
    }
    pdf = fitted(html, **options).write_pdf(finisher=mend, **options)
    assert pdf is not None
    return SetPdf(bytes(pdf), tuple(dict.fromkeys(shown)))


def settings() -> dict[str, Any]:
    """How WeasyPrint is to lay out and generate a PDF."""
    return {"pdf_variant": "pdf/ua-1"}


def carried(attachments: Sequence[Attachment]) -> list[Any]:
    """Attachments as WeasyPrint takes them, for one time."""
    import weasyprint

    return [
        weasyprint.Attachment(
            string=item.data, name=item.name, description=item.about, created=_DATED, modified=_DATED
        )
        for item in attachments
    ]


def opened(files: Mapping[str, bytes], html: str) -> tuple[Any, list[str]]:
    """WeasyPrint's document of some HTML, and the names of files that are asked for, as they are asked for.

    Nothing outside `files` and the package's fonts is read.
    """
    import weasyprint

    base: Any = weasyprint.HTML

    class Sheet(base):  # type: ignore[misc]
        """HTML that is laid out with a style sheet read before."""

        style: Mapping[str, Any]

        def render(self, **options: Any) -> Any:
            return base.render(self, **self.style, **options)

    shown: list[str] = []
    sheet: Any = Sheet(string=html, base_url=BASE, url_fetcher=_fetcher(files, shown))
    sheet.style = _taken_out(sheet.etree_element) or {}
    return sheet, shown


def _taken_out(root: Any) -> Mapping[str, Any] | None:
    """The one style sheet in the head of a tree of HTML, read and taken out of it; None where it has to stay."""
    styles: list[Any] = root.findall("head/style")
    if len(styles) != 1 or styles[0].attrib:
        return None
    (style,) = styles
    read = _read_style(style.text or "")
    if read is not None:
        root.find("head").remove(style)
    return read


def _fetcher(files: Mapping[str, bytes], shown: list[str]) -> Any:
    """What serves the site's own files and the package's fonts, and nothing else; `shown` hears of the files."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    fonts = font_files()

    class FromTheBook(URLFetcher):  # type: ignore[misc]
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

    return FromTheBook()


@lru_cache(maxsize=8)
def _read_style(text: str) -> Mapping[str, Any] | None:
    """A style sheet with its fonts, as WeasyPrint takes them; None where it asks for more than the package's
    fonts: what else it asks for may be another file in another site.
    """
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    asked: list[str] = []
    fonts = FontConfiguration()
    style = weasyprint.CSS(string=text, base_url=BASE, url_fetcher=_fetcher({}, asked), font_config=fonts)
    return None if asked else {"stylesheets": [style], "font_config": fonts}
