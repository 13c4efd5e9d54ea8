"""How an answer is written as JSON.

UTF-8, an instant in UTC with Z, a Decimal as text. An instant of another zone would keep its offset, so answers hold
`shop.answers.base.Instant` and plain data the text of `iso`.
"""

from datetime import UTC, datetime

import msgspec

encode = msgspec.json.Encoder(decimal_format="string").encode


def iso(instant: datetime | None) -> str | None:
    """RFC 3339 in UTC with Z: how every answer spells an instant."""
    return None if instant is None else instant.astimezone(UTC).isoformat().replace("+00:00", "Z")
