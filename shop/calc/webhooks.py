"""Secrets, signatures, answers and further tries of webhooks, after the Standard Webhooks specification."""

import base64
import hashlib
import hmac
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from typing import Literal

PREFIX = "whsec_"
OLD_SECRET_LASTS = timedelta(hours=24)
"""The time for which a replaced secret also signs, so that the receiver can change to the new one."""

LONGEST_PAUSE = 24 * 60 * 60
"""The longest pause in seconds that a receiver may ask for."""
THROTTLED = (429, 503)

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


def seconds_asked_for(status: int, retry_after: str, now: datetime) -> int:
    """The pause that a throttled answer (429, 503) asks for in Retry-After, in seconds or as a date; at most a day.

    0 for another answer and for a text that is neither (RFC 9110, section 10.2.3).
    """
    text = retry_after.strip()
    if status not in THROTTLED or not text.isascii():
        return 0
    if text.isdigit():
        return min(int(text[:9]), LONGEST_PAUSE)
    try:
        moment = parsedate_to_datetime(text)
        seconds = (moment.replace(tzinfo=moment.tzinfo or UTC) - now).total_seconds()
    except (ValueError, OverflowError):
        return 0
    return max(0, min(int(seconds), LONGEST_PAUSE))


def seconds_to_next_try(tries: int, delays: Sequence[int], asked_for: int = 0) -> int | None:
    """The seconds from failed try number `tries` to the next one; None after the last.

    `delays` are the seconds before the second try, the third, and so on; `asked_for` are the least that the receiver
    asks for.
    """
    return max(delays[tries - 1], asked_for) if tries <= len(delays) else None
