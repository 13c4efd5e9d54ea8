"""The stand-in for a printed paper in tests that are not marked `paper`."""

import hashlib


def set_nothing(html: str, **_: object) -> bytes:
    """Setting pages takes longer than most tests that send a quote."""
    return b"%PDF-1.7 of " + hashlib.sha256(html.encode()).hexdigest().encode()
