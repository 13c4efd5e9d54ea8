"""Seals the secret of a link while its message waits, so that the database or a backup alone does not disclose it.

The secret is combined (exclusive or) with an HMAC-SHA256 of the row's id under this installation's key. The pad is as
long as the secret and belongs to one row only. The link's hash shows whether it was opened with the right key.
"""

import base64
import hashlib
import hmac
from uuid import UUID

from django.conf import settings

BYTES = 32


def seal(token: str, row: UUID) -> str:
    """The sealed token (`secrets.token_urlsafe(32)`) in hexadecimal digits."""
    return _combined(base64.urlsafe_b64decode(token + "="), row).hex()


def opened(sealed: str, row: UUID) -> str:
    """The token; a wrong one if the key is not the one with which it was sealed."""
    return base64.urlsafe_b64encode(_combined(bytes.fromhex(sealed), row)).decode().rstrip("=")


def _combined(secret: bytes, row: UUID) -> bytes:
    if len(secret) != BYTES:
        raise ValueError(f"a secret has {BYTES} bytes, not {len(secret)}")
    pad = hmac.new(settings.SECRET_KEY.encode(), b"outbox " + row.bytes, hashlib.sha256).digest()
    return bytes(a ^ b for a, b in zip(secret, pad, strict=True))
