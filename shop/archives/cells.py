"""Values of a database as the cells of a CSV file, and back.

NULL is a backslash and a capital N; a text that begins with a backslash gets another one before it. Decimals, dates and
UUIDs are written exactly, bytes as base64, JSON without spaces.
"""

import base64
import json
from datetime import date
from typing import Any

from django.db.models import BinaryField, BooleanField, JSONField
from django.utils.dateparse import parse_datetime

from shop.storable import is_text

NULL = "\\N"


def written(field: Any, value: Any) -> str:
    if value is None:
        return NULL
    text = _text(field, value)
    return f"\\{text}" if text.startswith("\\") else text


def _text(field: Any, value: Any) -> str:
    if isinstance(field, JSONField):
        return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    if isinstance(field, BinaryField):
        return base64.b64encode(value).decode()
    if isinstance(field, BooleanField):
        return "true" if value else "false"
    return value.isoformat() if isinstance(value, date) else str(value)


def read(field: Any, text: str) -> Any:
    """The value of a cell. Raises ValueError or ValidationError for a text that the column cannot hold."""
    if text == NULL:
        return None
    if not is_text(text):
        raise ValueError("a text that no database stores")
    text = text[1:] if text.startswith("\\") else text
    if isinstance(field, JSONField):
        return json.loads(text)
    if isinstance(field, BinaryField):
        return base64.b64decode(text, validate=True)
    if isinstance(field, BooleanField):
        return {"true": True, "false": False}[text]
    value = (field.target_field if field.is_relation else field).to_python(text)
    if field.get_internal_type() == "DateTimeField":
        value = parse_datetime(text)
        if value is None or value.tzinfo is None:
            raise ValueError("an instant without a zone")
    if field.max_length and isinstance(value, str) and len(value) > field.max_length:
        raise ValueError("a text that is too long")
    return value
