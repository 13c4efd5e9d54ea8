"""Pull lists as answers, built from values_list by one function because they are long and read often."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import Any
from uuid import UUID

from django.db.models import Count, Min, QuerySet

from kitting.answers.pull_lists import JobOfListOut, KitOfListOut, PullLineOut, PullListOut, PullListRowOut
from kitting.calc.contents import pieces
from kitting.models import Code, Kit, PullLine, PullList
from kitting.models.pulling import PullListState
from kitting.queries.counts import lines_counted
from shop.access import Actor
from shop.answers.base import utc
from shop.calc.quantity import plain

FIELDS = ("id", "position", "kind", "kit", "number", "title", "quantity", "unit", "carton", "bag", "operation")


def list_rows(actor: Actor, rows: Sequence[PullList]) -> list[PullListRowOut]:
    """One row for each list, with its counted lines, in five queries."""
    ids = [row.pk for row in rows]
    lines = _standing(actor, ids).exclude(kind=PullLine.Kind.REUSED)
    how_many = dict(lines.values_list("pull_list").annotate(n=Count("id")).values_list("pull_list", "n"))
    counted = lines_counted(actor.shop, ids)
    kits: dict[UUID, list[str]] = defaultdict(list)
    by_kit = lines.exclude(kit="").values_list("pull_list", "kit").annotate(first=Min("position")).order_by("first")
    for list_id, kit, _ in by_kit:
        kits[list_id].append(kit)
    named = _named(actor, {row.pk: (row, kits[row.pk]) for row in rows})
    return [_row(row, named[row.pk], how_many.get(row.pk, 0), counted.get(row.pk, 0)) for row in rows]


def list_answer(actor: Actor, pull_list: PullList) -> PullListOut:
    """The whole list in two queries: its lines, and the codes on their parts."""
    rows = _standing(actor, [pull_list.pk]).order_by("position")
    codes = _codes(actor, rows.values("part"))
    lines = [_line(row, codes) for row in rows.values_list(*FIELDS)]
    return PullListOut(
        id=pull_list.pk,
        job=job_of_list(pull_list),
        customer=pull_list.job.customer.name,
        vehicle=pull_list.job.vehicle.title,
        state=PullListState(pull_list.state),
        seq=pull_list.last_seq,
        epoch=actor.shop.log_epoch,
        version=pull_list.version,
        kits=_kits(actor, pull_list, lines),
        lines=lines,
    )


def job_of_list(pull_list: PullList) -> JobOfListOut:
    return JobOfListOut(id=pull_list.job.pk, number=str(pull_list.job))


def _kits(actor: Actor, pull_list: PullList, lines: Iterable[PullLineOut]) -> list[KitOfListOut]:
    """The kits of the list in its order, with their names as of its opening."""
    codes = list(dict.fromkeys(line.kit for line in lines if line.kit))
    return _named(actor, {pull_list.pk: (pull_list, codes)})[pull_list.pk]


def _named(actor: Actor, codes: Mapping[UUID, tuple[PullList, Sequence[str]]]) -> dict[UUID, list[KitOfListOut]]:
    """{list: its kits in the order of the given codes}. Reads kits only for lists opened before names were kept."""
    nameless = {code for pull_list, kits in codes.values() if "kits" not in pull_list.facts for code in kits}
    today = dict(Kit.objects.filter(shop=actor.shop, code__in=nameless).values_list("code", "title"))
    return {
        id: [KitOfListOut(code=code, title=pull_list.facts.get("kits", today).get(code) or code) for code in kits]
        for id, (pull_list, kits) in codes.items()
    }


def _standing(actor: Actor, lists: Iterable[UUID]) -> QuerySet[PullLine]:
    return PullLine.objects.filter(shop=actor.shop, pull_list__in=list(lists), retired_at__isnull=True)


def _codes(actor: Actor, parts: Any) -> dict[str, list[str]]:
    """{part number: codes that a scanner may read}. Keyed by number: reading a UUID for each line costs more."""
    codes: dict[str, list[str]] = defaultdict(list)
    rows = Code.objects.filter(shop=actor.shop, part__in=parts)
    # Sorted here: with an ORDER BY, SQLite reads all codes of the shop to avoid the sort.
    for number, code in sorted(rows.values_list("part__number", "code")):
        codes[number].append(code)
    return codes


def _row(pull_list: PullList, kits: list[KitOfListOut], lines: int, counted: int) -> PullListRowOut:
    return PullListRowOut(
        id=pull_list.pk,
        job=str(pull_list.job),
        job_id=pull_list.job.pk,
        number=str(pull_list.job),
        customer=pull_list.job.customer.name,
        vehicle=pull_list.job.vehicle.title,
        kits=kits,
        state=PullListState(pull_list.state),
        lines=lines,
        counted=counted,
        opened_at=utc(pull_list.opened_at),
    )


@lru_cache(maxsize=1024)
def _amount(quantity: Decimal, unit: str) -> tuple[str, int]:
    """(the quantity as text, number of pieces). Cached: a long list has few different ones."""
    return plain(quantity), pieces(quantity, unit)


def _line(row: tuple[Any, ...], codes: dict[str, list[str]]) -> PullLineOut:
    id, position, kind, kit, number, title, quantity, unit, carton, bag, operation = row
    written, counted_as = _amount(quantity, unit)
    return PullLineOut(
        id=id,
        position=position,
        kind=kind,
        kit=kit,
        number=number,
        title=title,
        quantity=written,
        pieces=counted_as,
        unit=unit,
        carton=carton,
        bag=bag,
        operation=operation,
        codes=codes.get(number, []),
    )
