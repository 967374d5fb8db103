"""A page, its style and the files it shows -> PDF bytes, by WeasyPrint. Nothing is fetched but those files.

Importing this needs Pango: OSError where it is missing.
"""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import unquote

from weasyprint import CSS, HTML  # type: ignore[import-untyped]
from weasyprint.text.ffi import fontconfig  # type: ignore[import-untyped]
from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
from weasyprint.urls import URLFetcher, URLFetcherResponse  # type: ignore[import-untyped]

__all__ = ["system_fonts", "write"]

ROOT = "file:///sheet/"
"""Where the names of files start, so that a relative one has a full address."""


class _Files(URLFetcher):  # type: ignore[misc]
    """Serves the files of a guide by name and data addresses; everything else is refused."""

    def __init__(self, files: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols={"data"}, allow_redirects=False)
        self.files = files

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        """The bytes of a file. Raises ValueError for any other address."""
        name = unquote(url.removeprefix(ROOT))
        if url.startswith(ROOT) and name in self.files:
            return URLFetcherResponse(url, self.files[name])
        return super().fetch(url, headers)


def write(page: str, css: str, files: Mapping[str, bytes], identifier: bytes) -> bytes:
    """The PDF/UA-1 of a page."""
    fonts, fetcher = FontConfiguration(), _Files(files)
    sheet = CSS(string=css, base_url=ROOT, url_fetcher=fetcher, font_config=fonts)
    made = HTML(string=page, base_url=ROOT, url_fetcher=fetcher).write_pdf(
        stylesheets=[sheet], font_config=fonts, pdf_variant="pdf/ua-1", pdf_identifier=identifier
    )
    assert isinstance(made, bytes)
    return made


def system_fonts() -> bool:
    """Whether the system has any font; without one, and without one of our own, Pango would end the process."""
    found = fontconfig.FcConfigGetFonts(fontconfig.FcInitLoadConfigAndFonts(), fontconfig.FcSetSystem)
    return bool(found.nfont)
