"""The log of a pull list as phones pull it."""

from typing import Any

from kitting.calc.counting import digest
from kitting.models import CountEvent, PullList
from kitting.queries.contents import tallied
from shop.access import Actor
from shop.presenters.rows import iso

FIELDS = ("v", "id", "list", "line", "kind", "total", "damaged", "target", "device", "n", "epoch", "seen", "made_at")
SERVERS = ("author", "author__user__name", "seq", "late", "extra")


def events_after(who: Actor, pull_list: PullList, after: int, limit: int) -> dict[str, Any]:
    """The next `limit` events past `after`; the digest of the fold, when that is all.

    The log only grows, so reading up to the list's own seq sees one moment of it.
    """
    last = pull_list.last_seq
    rows = CountEvent.objects.filter(shop=who.shop, list=pull_list, seq__gt=after, seq__lte=last).order_by("seq")
    events = [_event(row) for row in rows.values_list(*FIELDS, *SERVERS)[:limit]]
    reached = events[-1]["seq"] if events else max(after, 0)
    found: dict[str, Any] = {
        "events": events,
        "more": reached < last,
        "seq": min(reached, last),
        "epoch": who.shop.log_epoch,
        "state": pull_list.state,
    }
    if not found["more"]:
        found["digest"] = digest(tallied(who.shop, pull_list.pk, last))
    return found


def _event(row: tuple[Any, ...]) -> dict[str, Any]:
    v, id, list_id, line, kind, total, damaged, target, device, n, epoch, seen, made_at, *servers = row
    author, name, seq, late, extra = servers
    return {
        "how": None,
        "note": None,
        **extra,
        "v": v,
        "id": id,
        "list": list_id,
        "line": line,
        "kind": kind,
        "total": total,
        "damaged": damaged,
        "target": target,
        "device": device,
        "n": n,
        "epoch": epoch,
        "seen": seen,
        "made_at": iso(made_at),
        "author": author,
        "author_name": name,
        "seq": seq,
        "late": late,
    }
