"""The log of a pull list, folded and counted."""

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from django.db.models import Count, Q

from kitting.calc.counting import KNOWN_VERSION, Event, Tally, fold
from kitting.calc.observed import ObservedEvent
from kitting.models import CountEvent
from shop.models import Shop

OBSERVED = ("id", "line", "kind", "total", "damaged", "target")
FOLDED = (*OBSERVED, "device", "device_seq", "seen", "author", "seq", "late", "form")


def count_log(shop: Shop, pull_list: UUID, upto: int) -> list[ObservedEvent]:
    """The list's log up to `upto`: the input of the fold, with the fields that are only shown."""
    rows = CountEvent.objects.filter(shop=shop, pull_list=pull_list, seq__lte=upto).order_by("seq")
    return [ObservedEvent(_event(row), extra) for *row, extra in rows.values_list(*FOLDED, "extra")]


def tallied(shop: Shop, pull_list: UUID, upto: int) -> dict[str, Tally]:
    """{line: its tally} from the list's log up to `upto`."""
    rows = CountEvent.objects.filter(shop=shop, pull_list=pull_list, seq__lte=upto)
    return fold(_event(row) for row in rows.values_list(*FOLDED))


def _event(row: Sequence[Any]) -> Event:
    id, line, kind, total, damaged, target, device, n, seen, author, seq, late, v = row
    return Event(
        id=str(id),
        line=str(line),
        kind=kind,
        total=total,
        damaged=damaged,
        target=str(target) if target else None,
        device=str(device),
        n=n,
        seen=seen,
        author=str(author),
        seq=seq,
        late=late,
        v=v,
    )


def lines_counted(shop: Shop, lists: Iterable[UUID]) -> dict[UUID, int]:
    """{list: number of lines counted or accepted sealed}. Agrees with `line_figures`, without a fold.

    Re-used parts and retired lines are not counted.
    """
    live = CountEvent.objects.filter(shop=shop, pull_list__in=list(lists), late=False, form=KNOWN_VERSION)
    undos = set(live.filter(kind="undo").values_list("target", "author"))
    named = CountEvent.objects.filter(shop=shop, pk__in={target for target, _ in undos}).values_list("pk", "author")
    undone = [pk for pk, author in named if (pk, author) in undos]
    sealed = Q(kind="note") & (Q(extra__how="sealed") | Q(extra__note__what="sealed"))
    counts = live.filter(Q(kind__in=("set", "add")) | sealed).exclude(pk__in=undone)
    counts = counts.filter(line__retired_at__isnull=True).exclude(line__kind="reused")
    return dict(counts.values_list("pull_list").annotate(n=Count("line", distinct=True)).values_list("pull_list", "n"))
