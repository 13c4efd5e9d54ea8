"""HTML -> PDF/A-3a (ISO 19005-3: archival and tagged), the same bytes for the same input.

WeasyPrint takes a second to import, so it is imported when the first document is printed.
"""

from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any

STYLE = Path(__file__).with_name("print.css")


class ForeignAddressError(ValueError):
    """The document names an address outside itself; the message holds it."""


def render(
    html: str, *, title: str, made_at: datetime, attachment: bytes | None = None, attachment_name: str = "document.json"
) -> bytes:
    """The document as PDF, with `attachment` (JSON in UTF-8) inside as its machine-readable form.

    `made_at` is the only time in the file: give the instant of what is printed, never of the printing.
    Raises ForeignAddressError when the HTML names anything but data: URLs.
    """
    from weasyprint import HTML

    from shop.documents.fetching import LockedFetcher

    fetcher = LockedFetcher()
    document = HTML(string=html, url_fetcher=fetcher, base_url="data:,").render(
        stylesheets=[_style()], pdf_variant="pdf/a-3a"
    )
    instant = made_at.astimezone(UTC)
    document.metadata.title = title
    document.metadata.created = document.metadata.modified = instant.strftime("%Y-%m-%dT%H:%M:%SZ")
    if attachment is not None:
        document.metadata.attachments = [_attached(attachment, attachment_name, title, instant, fetcher)]
    pdf: bytes = document.write_pdf(pdf_variant="pdf/a-3a")
    if fetcher.refused:
        raise ForeignAddressError(fetcher.refused[0])
    return pdf


def _attached(body: bytes, name: str, title: str, instant: datetime, fetcher: object) -> object:
    from weasyprint import Attachment

    return Attachment(
        string=body,
        name=name,
        description=title,
        relationship="Data",
        created=instant,
        modified=instant,
        url_fetcher=fetcher,
    )


@cache
def _style() -> Any:
    """The parsed style, which names no address: parsing takes a thirtieth of the time of a paper."""
    from weasyprint import CSS

    from shop.documents.fetching import LockedFetcher

    return CSS(string=STYLE.read_text("utf-8"), url_fetcher=LockedFetcher(), base_url="data:,")
