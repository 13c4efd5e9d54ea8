from typing import Any

from rest_framework.renderers import BaseRenderer

from shop.encoding import encode


class JSONRenderer(BaseRenderer):
    """UTF-8 JSON, or bytes that `encode` has written already."""

    media_type = "application/json"
    format = "json"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        if data is None:
            return b""
        return data if isinstance(data, bytes) else encode(data)


class PDFRenderer(JSONRenderer):
    """Lets a view answer with a PDF itself; its refusals are problems."""

    media_type = "application/pdf"
    format = "pdf"


class JPEGRenderer(JSONRenderer):
    """Lets a view answer with a photograph itself."""

    media_type = "image/jpeg"
    format = "jpg"


class PageRenderer(JSONRenderer):
    """Lets a view answer with an HTML page itself."""

    media_type = "text/html"
    format = "html"


class CSVRenderer(JSONRenderer):
    """Lets a view answer with a CSV file itself."""

    media_type = "text/csv"
    format = "csv"


class XMLRenderer(JSONRenderer):
    """Lets a view answer with an XML document itself."""

    media_type = "application/xml"
    format = "xml"


class BytesRenderer(JSONRenderer):
    """Lets a view answer with a file of any kind itself."""

    media_type = "application/octet-stream"
    format = "file"


class XLSXRenderer(JSONRenderer):
    """Lets a view answer with a workbook itself."""

    media_type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    format = "xlsx"
