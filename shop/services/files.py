"""Rows for files in the storage."""

import hashlib
from datetime import datetime

from django.db import transaction

from shop.models import Shop, StoredFile


@transaction.atomic
def record_file(*, shop: Shop, body: bytes, media_type: str, path: str, now: datetime) -> StoredFile:
    """The row of these bytes, stored at `path`; a new one unless the shop has these bytes already."""
    row = StoredFile(
        shop=shop,
        sha256=hashlib.sha256(body).hexdigest(),
        size=len(body),
        media_type=media_type,
        path=path,
        stored_at=now,
    )
    row.clean_fields()
    facts = {name: getattr(row, name) for name in ("size", "media_type", "path", "stored_at")}
    return StoredFile.objects.get_or_create(shop=shop, sha256=row.sha256, defaults=facts)[0]
