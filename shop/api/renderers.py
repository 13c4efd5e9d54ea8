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
    """For views that answer with a PDF themselves; their refusals are problems as everywhere."""

    media_type = "application/pdf"
    format = "pdf"


class PageRenderer(JSONRenderer):
    """For views that answer with a page themselves."""

    media_type = "text/html"
    format = "html"
