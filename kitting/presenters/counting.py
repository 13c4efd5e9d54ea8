"""The log of a pull list as phones pull it."""

from typing import Any

from msgspec import UNSET, to_builtins

from kitting.answers.counting import CountEventOut, EventsOut
from kitting.calc.counting import digest
from kitting.models import CountEvent, PullList
from kitting.models.pulling import PullListState
from kitting.queries.counts import tallied
from shop.access import Actor
from shop.answers.base import utc

EVENT = ("form", "id", "pull_list", "line", "kind", "total", "damaged", "target")
FIELDS = (*EVENT, "device", "device_seq", "epoch", "seen", "made_at")
SERVERS = ("author", "author__user__name", "seq", "late", "extra")
SEQ = len(FIELDS) + SERVERS.index("seq")
KNOWN = {"how", "note"}  # of what is kept in `extra`


def events_after(actor: Actor, pull_list: PullList, after: int, limit: int) -> EventsOut:
    """The next `limit` events past `after`, with the digest of the fold if they are the last.

    The log only grows, so reading up to the list's own seq gives a consistent view.
    """
    last = pull_list.last_seq
    rows = CountEvent.objects.filter(shop=actor.shop, pull_list=pull_list, seq__gt=after, seq__lte=last).order_by("seq")
    values = list(rows.values_list(*FIELDS, *SERVERS)[:limit])
    reached = min(values[-1][SEQ] if values else max(after, 0), last)
    return EventsOut(
        events=[_event(row) for row in values],
        more=reached < last,
        seq=reached,
        epoch=actor.shop.log_epoch,
        state=PullListState(pull_list.state),
        digest=digest(tallied(actor.shop, pull_list.pk, last)) if reached == last else UNSET,
    )


def _event(row: tuple[Any, ...]) -> Any:
    """A CountEventOut, with any further fields that a newer phone sent."""
    v, id, list_id, line, kind, total, damaged, target, device, n, epoch, seen, made_at, *servers = row
    author, name, seq, late, extra = servers
    event = CountEventOut(
        v=v,
        id=id,
        list=list_id,
        line=line,
        kind=kind,
        total=total,
        damaged=damaged,
        target=target,
        device=device,
        n=n,
        epoch=epoch,
        seen=seen,
        made_at=utc(made_at),
        how=extra.get("how"),
        note=extra.get("note"),
        author=author,
        author_name=name,
        seq=seq,
        late=late,
    )
    return event if extra.keys() <= KNOWN else {**extra, **to_builtins(event)}
