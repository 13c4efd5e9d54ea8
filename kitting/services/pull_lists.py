"""Pull lists: opened with the job, counted by everyone, closed when the counts are settled."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import Max

from kitting.calc.contents import DraftLine, KitContents, PullNeed, box_lines, need_line, needed_for, reused_lines
from kitting.models import KitCopy, KitRevision, PullLine, PullList
from kitting.models.pulling import PullListState
from kitting.queries.contents import kit_contents
from kitting.services.copies import add_copies
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Agreement, Job, Shop
from shop.queries.steps import standing_steps
from shop.services import feed, history
from shop.services.clean import clean
from shop.services.webhooks import Event, announce


@transaction.atomic
def open_pull_list(
    *,
    actor: Actor,
    agreement: Agreement,
    kits: Sequence[KitRevision],
    needs: Iterable[PullNeed],
    vehicle_attributes: Mapping[str, str | None],
    now: datetime,
    circuits: Sequence[Mapping[str, Any]] = (),
    firsts: Sequence[str] = (),
    supplied: Sequence[bool] = (),
) -> PullList:
    """Opens the job's list: kits by carton and bag, then needs as packs and parts, then re-used parts.

    Lines of kind `beside` are parts in the box for other vehicles, and parts that depend on an unknown attribute. Every
    line names the `agreement` as its origin. The revisions of the kits are frozen from now on. Call it inside the
    transaction that opens the job.
    `circuits` are the quote's assumptions about each coolant circuit (see `circuit_json`), used by the bay to mix.
    `firsts` are the codes of each kit's first step in the job. Parts tied to no step are needed there. `supplied` says
    of each kit whether the customer brings it; empty: of none.
    """
    job = agreement.job
    by_revision = kit_contents(actor.shop, [revision.pk for revision in kits], vehicle_attributes, reused=True)
    contents = [by_revision[revision.pk] for revision in kits]
    row = PullList(shop=actor.shop, job=job, opened_at=now, facts=_facts(job, kits) | {"circuits": [*circuits]})
    clean([row])
    row.save(force_insert=True)
    work = dict(standing_steps(actor.shop, job).values_list("code", "pk"))
    drafts = _drafts(contents, needs, firsts or [""] * len(contents), work)
    copies = add_copies(actor=actor, job=job, kits=kits, supplied=supplied)
    lines = (_row(row, agreement, position, draft, copies, work) for position, draft in enumerate(drafts, start=1))
    PullLine.objects.bulk_create(lines)
    unused = KitRevision.objects.filter(
        shop=actor.shop, pk__in=[revision.pk for revision in kits], used_at__isnull=True
    )
    unused.update(used_at=now)
    history.record(actor=actor, verb="opened", row=row)
    feed.record(actor=actor, kind=feed.Kind.PULL_LISTS)
    return row


@transaction.atomic
def change_pull_list(
    *,
    actor: Actor,
    agreement: Agreement,
    kits: Sequence[KitRevision],
    needs: Iterable[PullNeed],
    vehicle_attributes: Mapping[str, str | None],
    now: datetime,
    firsts: Sequence[str] = (),
    supplied: Sequence[bool] = (),
    gone: Collection[UUID] = (),
) -> None:
    """Adds the lines that an agreement brings to the job's list, and retires those that it cancels (`gone`).

    A closed list is open again if there is something to count. Without a list the job gets one.
    """
    job = agreement.job
    row = PullList.objects.select_for_update().filter(shop=actor.shop, job=job).order_by("-opened_at", "-id").first()
    if row is None:
        open_pull_list(
            actor=actor,
            agreement=agreement,
            kits=kits,
            needs=needs,
            vehicle_attributes=vehicle_attributes,
            now=now,
            firsts=firsts,
            supplied=supplied,
        )
        return
    lines = PullLine.objects.filter(shop=actor.shop, pull_list=row)
    lines.filter(pk__in=gone, retired_at=None).update(retired_at=now, cancellation=agreement)
    by_revision = kit_contents(actor.shop, [revision.pk for revision in kits], vehicle_attributes, reused=True)
    work = _work(actor.shop, agreement)
    contents = [by_revision[revision.pk] for revision in kits]
    drafts = list(_drafts(contents, needs, firsts or [""] * len(contents), work))
    copies = add_copies(actor=actor, job=job, kits=kits, supplied=supplied)
    last = lines.aggregate(last=Max("position"))["last"] or 0
    PullLine.objects.bulk_create(
        _row(row, agreement, position, draft, copies, work) for position, draft in enumerate(drafts, start=last + 1)
    )
    KitRevision.objects.filter(shop=actor.shop, pk__in=[revision.pk for revision in kits], used_at=None).update(
        used_at=now
    )
    row.facts = {**row.facts, "kits": {**row.facts["kits"], **{kit.kit.code: kit.kit.title for kit in kits}}}
    if drafts and row.state == PullList.State.CLOSED:
        row.state, row.closed_at, row.closed_by = PullList.State.OPEN, None, None
    row.version += 1
    row.save(update_fields=["facts", "state", "closed_at", "closed_by", "version"])
    history.record(actor=actor, verb="changed by agreement", row=row, changes={"agreement": ["", agreement.number]})
    feed.record(actor=actor, kind=feed.Kind.PULL_LISTS)


@transaction.atomic
def close_pull_list(*, actor: Actor, pull_list: PullList, seq: int, now: datetime) -> PullList:
    """Closes the list as seen at `seq`. Refused if events have arrived since, or if it is closed already."""
    row = locked(pull_list)
    if row.state == PullList.State.CLOSED:
        raise RequestError(409, "list-is-closed")
    if row.last_seq != seq:
        raise RequestError(409, "more-has-come", n=abs(row.last_seq - seq))
    return _turn(actor, row, PullList.State.CLOSED, now)


@transaction.atomic
def reopen_pull_list(*, actor: Actor, pull_list: PullList) -> PullList:
    """Reopens the list. Events that came after closing stay late and have to be counted again."""
    row = locked(pull_list)
    return row if row.state == PullList.State.OPEN else _turn(actor, row, PullList.State.OPEN, None)


def locked(pull_list: PullList) -> PullList:
    """The list under its row's lock, the first step of every upload and every change of state."""
    return PullList.objects.select_for_update().get(pk=pull_list.pk)


def _work(shop: Shop, agreement: Agreement) -> dict[str, UUID]:
    """Maps the codes of operations to the job's steps; where the agreement sold more of one, to the step that it added.

    Its step then has another code (`joining_steps`), and `sheet` the one under which it was sold.
    """
    rows = list(standing_steps(shop, agreement.job_id).values_list("code", "pk", "origin", "sheet"))
    own = {sheet["sold"]: pk for _, pk, origin, sheet in rows if origin == agreement.pk and "sold" in sheet}
    return {code: pk for code, pk, _, _ in rows} | own


def _turn(actor: Actor, row: PullList, state: PullListState, closed_at: datetime | None) -> PullList:
    before = str(row.state)
    row.state, row.closed_at = state, closed_at
    row.closed_by = actor.member if closed_at else None
    row.version += 1
    row.save(update_fields=["state", "closed_at", "closed_by", "version"])
    history.record(
        actor=actor, verb=str(state), row=row, changes={"state": [before, str(state)], "seq": [None, row.last_seq]}
    )
    announce(actor=actor, event=Event.LIST_STATE, data=_event(row))
    feed.record(actor=actor, kind=feed.Kind.PULL_LISTS)
    return row


def _event(row: PullList) -> dict[str, str | None]:
    """The list, its job and its state, for webhooks."""
    job = {"job": str(row.job.pk), "number": str(row.job)} if row.job else {"job": None, "number": ""}
    return {"pull_list": str(row.pk), **job, "state": str(row.state)}


def _facts(job: Job, kits: Iterable[KitRevision]) -> dict[str, Any]:
    """The PDF's heading, and the kits' titles by code, as of the opening of the list."""
    return {
        "job": str(job),
        "customer": job.customer.name,
        "vehicle": job.vehicle.title,
        "plate": job.vehicle.plate,
        "vin_tail": job.vehicle.vin[-6:],
        "kits": {revision.kit.code: revision.kit.title for revision in kits},
    }


def _drafts(
    kits: Sequence[KitContents], needs: Iterable[PullNeed], firsts: Sequence[str], work: Collection[str]
) -> Iterator[DraftLine]:
    for copy, (kit, first) in enumerate(zip(kits, firsts, strict=True)):
        yield from (needed_for(line, first, work) if first else line for line in box_lines(kit, copy))
    for need in needs:
        yield need_line(need)
    for copy, kit in enumerate(kits):
        yield from reused_lines(kit, copy)


def _row(
    pull_list: PullList,
    agreement: Agreement,
    position: int,
    draft: DraftLine,
    copies: Sequence[KitCopy],
    work: Mapping[str, UUID],
) -> PullLine:
    return PullLine(
        shop_id=pull_list.shop_id,
        pull_list=pull_list,
        position=position,
        kind=draft.kind,
        part_id=draft.part_id,
        number=draft.number,
        title=draft.title,
        quantity=draft.quantity,
        unit=draft.unit,
        copy=None if draft.copy is None else copies[draft.copy],
        kit=draft.kit,
        carton=draft.carton,
        bag=draft.bag,
        operation=draft.operation,
        step_id=work.get(draft.operation),
        origin=agreement,
        detail=dict(draft.detail or {}),
    )
