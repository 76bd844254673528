"""WeasyPrint, imported only when a PDF is asked for, and fed only from the site in memory."""

from __future__ import annotations

import mimetypes
from collections.abc import Mapping
from urllib.parse import unquote, urlsplit

BASE = "https://book.invalid/"
"""Addresses of the site in memory. The name can never be looked up (RFC 2606), and nothing tries."""


class PressMissing(Exception):
    """WeasyPrint's own libraries are not on this machine; the message says which."""


def html_to_pdf(files: Mapping[str, bytes], page: str) -> bytes:
    """One page of a site (paths to bytes) as a tagged PDF.

    Raises PressMissing where Pango is not installed. Nothing outside `files` is read.
    """
    try:
        import weasyprint
        from weasyprint.urls import URLFetcher, URLFetcherResponse
    except OSError as error:
        raise PressMissing(
            "PDFs need Pango, which is not on this machine (README.md, section PDFs, says which packages); "
            "everything else works without it"
        ) from error

    class FromTheBook(URLFetcher):  # type: ignore[misc]
        """Serves the site's own files, and nothing else."""

        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
            parts = urlsplit(url)
            name = unquote(parts.path).lstrip("/")
            if not url.startswith(BASE) or name not in files:
                raise ValueError(f"{url} is not part of the book")
            kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
            return URLFetcherResponse(url, files[name], {"Content-Type": kind})

    html = weasyprint.HTML(string=files[page].decode("utf-8"), base_url=BASE + page, url_fetcher=FromTheBook())
    pdf = html.write_pdf(pdf_variant="pdf/ua-1")
    assert pdf is not None
    return bytes(pdf)
