"""The changes to a restored database as SQL, so that they share one transaction with the restore.

Each shop's log begins a new epoch, so that phones send again what the log has lost. Each pull list records where its
log was cut, so that a phone does not count as having seen events that are gone. All sessions end: some belong to people
who have signed out, or whose account was closed, since the backup. A message that waited in the outbox may have been
sent since, so a person decides about it. Open invitations and password links end: they may have been used since. API
tokens and calendars' addresses end: they may have been revoked since. Webhooks are switched off, for a restored copy
may run beside the original.
"""

import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from uuid import UUID

from shop.backups.manifest import Manifest
from shop.rows import uuid7

Sql = str
SIGN_INS = ("django_session", "shop_personsession", "shop_signintry", "shop_passwordrequest", "shop_phonepin")
REVOKED = ("shop_apitoken", "shop_calendarfeed")
HISTORY_HAS_NOUNS = ("shop", "0018_columns_as_nouns")
HISTORY_HAS_CHANNEL = ("shop", "0024_channel_and_reason")
OUTBOX_HAS_STATES = ("shop", "0019_outbox")
COUNTED_FROM = datetime(2026, 1, 1, tzinfo=UTC)


def next_epochs(backup: Mapping[str, int], live: Mapping[str, int], now: datetime) -> dict[str, int]:
    """{shop: its new epoch}, above every epoch that a phone may know.

    The same backup may be restored twice, also on a machine without a trace of the first time. Therefore the epoch is
    at least the number of minutes since 2026. With a wrong clock only this protection is lost, not the step past known
    epochs.
    """
    minutes = int((now - COUNTED_FROM).total_seconds() // 60)
    return {shop: max(epoch + 1, live.get(shop, 0) + 1, minutes) for shop, epoch in backup.items()}


def begin(epochs: Mapping[str, int], manifest: Manifest, now: datetime) -> Iterator[Sql]:
    """The SQL statements, for SQLite or PostgreSQL. All values are our own whole numbers, UUIDs and instants."""
    for shop, epoch in epochs.items():
        yield from begin_shop(shop, epoch, manifest, now)
    if "shop_entrylink" in manifest.counts:
        yield end_entry_links(manifest.engine, now)
    for table in REVOKED:
        if table in manifest.counts:
            yield f"UPDATE {table} SET revoked_at = '{_instant(now, manifest.engine)}' WHERE revoked_at IS NULL"
    if "shop_webhook" in manifest.counts:
        yield from hold_webhooks(manifest.engine, now)
    if OUTBOX_HAS_STATES in manifest.migrations:
        yield hold_messages(manifest.engine, now)
    for table in SIGN_INS:
        if table in manifest.counts:
            yield f"DELETE FROM {table}"


def begin_shop(
    shop: str, epoch: int, manifest: Manifest, now: datetime, verb: str = "backup restored"
) -> Iterator[Sql]:
    """The statements of one shop. `verb` names in its history what has happened."""
    vendor = manifest.engine
    recorded_at = "recorded_at" if HISTORY_HAS_NOUNS in manifest.migrations else "at"
    channel = "channel" if HISTORY_HAS_CHANNEL in manifest.migrations else "via"
    id = _id(UUID(shop), vendor)
    yield f"UPDATE shop_shop SET log_epoch = {epoch:d} WHERE id = '{id}'"
    yield f"UPDATE kitting_pulllist SET cuts = {_cut(epoch - 1, vendor)} WHERE shop_id = '{id}'"
    if "shop_changenumber" in manifest.counts:
        # Above the number that any open screen has, so that it reloads everything.
        yield f"UPDATE shop_changenumber SET number = number + {epoch:d} WHERE shop_id = '{id}'"
    changes = json.dumps({"log_epoch": [manifest.shops[shop], epoch], "backup_made_at": [None, manifest.made_at]})
    yield (
        f"INSERT INTO shop_history (id, shop_id, {recorded_at}, {channel}, verb, subject, subject_id, changes) "
        f"VALUES ('{_id(uuid7(), vendor)}', '{id}', '{_instant(now, vendor)}', 'command', '{verb}', "
        f"'shop', '{id}', '{changes}')"
    )


def hold_messages(vendor: str, now: datetime, shop: str = "") -> Sql:
    """Leaves each waiting message to a person's decision: of one shop, or of all."""
    of_shop = f" AND shop_id = '{_id(UUID(shop), vendor)}'" if shop else ""
    return (
        f"UPDATE shop_outbox SET state = 'begun', reason = 'restored', due_at = '{_instant(now, vendor)}' "
        f"WHERE state IN ('waiting', 'begun'){of_shop}"
    )


def hold_webhooks(vendor: str, now: datetime) -> Iterator[Sql]:
    """Switches every webhook off and cancels waiting messages: a manager switches on those that are still right."""
    instant = _instant(now, vendor)
    yield (
        f"UPDATE shop_webhook SET off_at = '{instant}', off_reason = 'restored' "
        "WHERE off_at IS NULL AND ended_at IS NULL"
    )
    yield (
        "UPDATE shop_webhookmessage SET state = 'cancelled', reason = 'restored' WHERE state IN ('waiting', 'begun')"
    )


def end_entry_links(vendor: str, now: datetime) -> Sql:
    """Withdraws each invitation and password link that nobody has used."""
    return (
        f"UPDATE shop_entrylink SET withdrawn_at = '{_instant(now, vendor)}' "
        "WHERE used_at IS NULL AND withdrawn_at IS NULL"
    )


def _cut(ended: int, vendor: str) -> Sql:
    """`cuts` with [last epoch that has ended, the list's last seq] appended."""
    if vendor == "sqlite":
        return f"json_insert(cuts, '$[#]', json_array({ended:d}, last_seq))"
    return f"cuts || jsonb_build_array(jsonb_build_array({ended:d}, last_seq))"


def _id(id: UUID, vendor: str) -> str:
    return id.hex if vendor == "sqlite" else str(id)


def _instant(now: datetime, vendor: str) -> str:
    now = now.astimezone(UTC)
    return now.strftime("%Y-%m-%d %H:%M:%S.%f") if vendor == "sqlite" else now.isoformat()
