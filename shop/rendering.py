from typing import Any

import orjson
from rest_framework.renderers import BaseRenderer


class JSONRenderer(BaseRenderer):
    """UTF-8 JSON. Decimals never come here: serializers and shaping functions make strings of them."""

    media_type = "application/json"
    format = "json"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        return b"" if data is None else orjson.dumps(data)


class PDFRenderer(BaseRenderer):
    """For views that answer with a PDF themselves; their refusals are problems as everywhere."""

    media_type = "application/pdf"
    format = "pdf"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        return data if isinstance(data, bytes) else orjson.dumps(data)
