from datetime import date, datetime
from typing import Any

import orjson
from rest_framework.renderers import BaseRenderer

from shop.presenters.rows import iso


def encode(data: Any) -> bytes:
    """Every JSON answer: UTF-8, and an instant is spelled as `iso` spells it, however it came here."""
    return orjson.dumps(data, default=_text, option=orjson.OPT_PASSTHROUGH_DATETIME)


def _text(value: Any) -> str | None:
    if isinstance(value, datetime):
        return iso(value)
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} has no form in an answer")


class JSONRenderer(BaseRenderer):
    """UTF-8 JSON. Decimals never come here: serializers and shaping functions make strings of them."""

    media_type = "application/json"
    format = "json"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        return b"" if data is None else encode(data)


class PDFRenderer(BaseRenderer):
    """For views that answer with a PDF themselves; their refusals are problems as everywhere."""

    media_type = "application/pdf"
    format = "pdf"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        return data if isinstance(data, bytes) else encode(data)


class PageRenderer(PDFRenderer):
    """For views that answer with a page themselves."""

    media_type = "text/html"
    format = "html"
