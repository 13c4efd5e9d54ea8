from typing import Any

import msgspec
from rest_framework.renderers import BaseRenderer

# Every JSON answer: UTF-8, an instant in UTC with Z, a Decimal as text. An instant of another zone keeps its offset, so
# answers hold `shop.answers.base.Instant` and plain data the text of `iso`.
encode = msgspec.json.Encoder(decimal_format="string").encode


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
