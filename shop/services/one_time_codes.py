"""The codes of a second factor: six digits of the moment (RFC 6238), and recovery codes that work once each."""

import base64
import hashlib
import hmac
import secrets
from datetime import datetime
from uuid import UUID

from django.conf import settings
from django_otp.oath import hotp

STEP = 30  # seconds
DRIFT = 1  # steps by which a phone's clock may be ahead of ours or behind it
DIGITS, SECRET_BYTES = 6, 20
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # without those mistaken for another: 0, 1, I, O
RECOVERY_CODES, RECOVERY_LETTERS = 10, 12


def matching_step(secret: bytes, code: str, now: datetime, *, after: int = 0) -> int | None:
    """The time step that has this code, among those around `now` and later than `after`."""
    middle = int(now.timestamp()) // STEP
    for step in range(max(middle - DRIFT, after + 1), middle + DRIFT + 1):
        if hmac.compare_digest(f"{hotp(secret, step, digits=DIGITS):0{DIGITS}d}".encode(), code.encode()):
            return step
    return None


def new_secret() -> bytes:
    return secrets.token_bytes(SECRET_BYTES)


def as_typed(secret: bytes) -> str:
    """The secret in base32, as a person types it into an app."""
    return base64.b32encode(secret).decode()


def new_recovery_code() -> str:
    """A recovery code in three groups of four letters: 60 bits."""
    letters = "".join(secrets.choice(ALPHABET) for _ in range(RECOVERY_LETTERS))
    return "-".join(letters[start : start + 4] for start in range(0, RECOVERY_LETTERS, 4))


def plain(code: str) -> str:
    """The code without blanks and dashes, in capitals."""
    return "".join(letter for letter in code.upper() if letter.isalnum())


def digest_of(recovery_code: str, user: UUID) -> str:
    return hashlib.sha256(user.bytes + plain(recovery_code).encode()).hexdigest()


def sealed(secret: bytes, row: UUID) -> str:
    """The secret sealed for its row, so that the database alone, or a backup, does not give it away."""
    return _combined(secret, row).hex()


def unsealed(text: str, row: UUID) -> bytes:
    return _combined(bytes.fromhex(text), row)


def _combined(secret: bytes, row: UUID) -> bytes:
    pad = hmac.new(settings.SECRET_KEY.encode(), b"authenticator " + row.bytes, hashlib.sha256).digest()
    return bytes(a ^ b for a, b in zip(secret, pad[:SECRET_BYTES], strict=True))
