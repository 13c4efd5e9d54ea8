"""Encodes answers as JSON: UTF-8, instants in UTC with Z, Decimals as text.

The encoder would keep the offset of an instant in another zone. Answers therefore hold `shop.answers.base.Instant`,
and plain data holds the text of `iso`.
"""

from datetime import UTC, datetime

import msgspec

encode = msgspec.json.Encoder(decimal_format="string").encode


def iso(instant: datetime | None) -> str | None:
    """The instant as RFC 3339 text in UTC with Z; None for None."""
    return None if instant is None else instant.astimezone(UTC).isoformat().replace("+00:00", "Z")
