"""Secrets, signatures, answers and further tries of webhooks, after the Standard Webhooks specification."""

import base64
import hashlib
import hmac
from collections.abc import Sequence
from datetime import timedelta
from typing import Literal

PREFIX = "whsec_"
OLD_SECRET_LASTS = timedelta(hours=24)
"""A replaced secret signs beside the new one for so long, until the receiver has the new one."""

Answered = Literal["", "gone", "redirect", "status"]


def secret_text(key: bytes) -> str:
    """The secret as a receiver enters it: whsec_ and the key in base64."""
    return PREFIX + base64.b64encode(key).decode()


def signatures(secrets: Sequence[str], *, id: str, timestamp: int, body: bytes) -> str:
    """The header webhook-signature: HMAC-SHA256 of "id.timestamp.body" by each secret, separated by spaces."""
    signed = f"{id}.{timestamp}.".encode() + body
    return " ".join(f"v1,{_code(secret, signed)}" for secret in secrets)


def _code(secret: str, signed: bytes) -> str:
    key = base64.b64decode(secret.removeprefix(PREFIX), validate=True)
    return base64.b64encode(hmac.new(key, signed, hashlib.sha256).digest()).decode()


def answered(status: int) -> Answered:
    """The reason why an answer is no success; empty for 2xx. After "gone" (410) nothing is to be sent any more."""
    if 200 <= status < 300:
        return ""
    if status == 410:
        return "gone"
    return "redirect" if 300 <= status < 400 else "status"


def seconds_to_next_try(tries: int, delays: Sequence[int]) -> int | None:
    """The seconds from failed try number `tries` to the next one; None after the last.

    `delays` are the seconds before the second try, the third, and so on.
    """
    return delays[tries - 1] if tries <= len(delays) else None
