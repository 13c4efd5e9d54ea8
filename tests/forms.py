"""A client that sends forms as a browser does: as text, unless a form holds a file."""

from typing import Any
from urllib.parse import urlencode

from django.test import Client

TEXT = "application/x-www-form-urlencoded"


class FormClient(Client):
    def post(self, path: str, data: Any = None, content_type: str = TEXT, *args: Any, **kw: Any) -> Any:
        if content_type == TEXT and not isinstance(data, str | bytes):
            data = urlencode(data or {}, doseq=True)
        return super().post(path, data, content_type, *args, **kw)
