"""The changes to a restored database, as SQL, so that they are one transaction with the restore.

Every shop's log begins a new epoch, so that phones send again what the log has lost. Every pull list notes where its
log was cut, so that a phone is not believed to have seen what is no longer there. Every session ends: some belong to
people who have signed out, or whose account was closed, since the backup was made.
"""

import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from uuid import UUID

from shop.backups.manifest import Manifest
from shop.rows import uuid7

Sql = str
SIGN_INS = ("django_session", "shop_personsession", "shop_signintry")
COUNTED_FROM = datetime(2026, 1, 1, tzinfo=UTC)


def next_epochs(backup: Mapping[str, int], live: Mapping[str, int], now: datetime) -> dict[str, int]:
    """{shop: its new epoch}: past every epoch that a phone may have heard of.

    The same backup may be put back twice, and on a machine that knows nothing of the first time. So the epoch is at
    least the minutes since 2026; a clock that is wrong only loses that, never the step past the known ones.
    """
    minutes = int((now - COUNTED_FROM).total_seconds() // 60)
    return {shop: max(epoch + 1, live.get(shop, 0) + 1, minutes) for shop, epoch in backup.items()}


def begin(epochs: Mapping[str, int], manifest: Manifest, now: datetime) -> Iterator[Sql]:
    """The statements, for SQLite or PostgreSQL. All values are whole numbers, UUIDs and instants of our own."""
    vendor = manifest.engine
    for shop, epoch in epochs.items():
        id = _id(UUID(shop), vendor)
        yield f"UPDATE shop_shop SET log_epoch = {epoch:d} WHERE id = '{id}'"
        yield f"UPDATE kitting_pulllist SET cuts = {_cut(epoch - 1, vendor)} WHERE shop_id = '{id}'"
        if "shop_changenumber" in manifest.counts:  # past what an open screen has heard: it reads everything again
            yield f"UPDATE shop_changenumber SET number = number + {epoch:d} WHERE shop_id = '{id}'"
        changes = json.dumps({"log_epoch": [manifest.shops[shop], epoch], "backup_made_at": [None, manifest.made_at]})
        yield (
            "INSERT INTO shop_history (id, shop_id, at, via, verb, subject, subject_id, changes) VALUES "
            f"('{_id(uuid7(), vendor)}', '{id}', '{_instant(now, vendor)}', 'command', 'backup restored', 'shop', "
            f"'{id}', '{changes}')"
        )
    for table in SIGN_INS:
        if table in manifest.counts:
            yield f"DELETE FROM {table}"


def _cut(ended: int, vendor: str) -> Sql:
    """`cuts` with [the last epoch that has ended, the list's last seq] behind it."""
    if vendor == "sqlite":
        return f"json_insert(cuts, '$[#]', json_array({ended:d}, last_seq))"
    return f"cuts || jsonb_build_array(jsonb_build_array({ended:d}, last_seq))"


def _id(id: UUID, vendor: str) -> str:
    return id.hex if vendor == "sqlite" else str(id)


def _instant(now: datetime, vendor: str) -> str:
    now = now.astimezone(UTC)
    return now.strftime("%Y-%m-%d %H:%M:%S.%f") if vendor == "sqlite" else now.isoformat()
