"""The secrets of webhooks, worked out from a row's key and the installation's key: the database alone tells none."""

import hashlib
import hmac
from datetime import datetime
from uuid import UUID

from django.conf import settings

from shop.calc.webhooks import secret_text
from shop.models import Webhook
from shop.services.entry_links import hash_of


def secret_of(key: UUID) -> str:
    """The secret that belongs to a key of this installation."""
    return secret_text(hmac.new(settings.SECRET_KEY.encode(), b"webhook " + key.bytes, hashlib.sha256).digest())


def secrets_in_force(row: Webhook, now: datetime) -> list[str]:
    """The secrets that sign a message, the newest first; none if the installation's key is another than it was."""
    newest = secret_of(row.key)
    if hash_of(newest) != row.secret_hash:
        return []
    if row.old_key is None or row.old_key_until is None or row.old_key_until <= now:
        return [newest]
    return [newest, secret_of(row.old_key)]
