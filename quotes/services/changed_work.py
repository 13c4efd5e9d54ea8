"""Changes a job as its customer agreed: steps and lines of the pull list, from the frozen text of the change alone."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any
from uuid import UUID

from kitting.models import KitCopy, PullLine
from kitting.services.copies import put_on_shelf
from kitting.services.pull_lists import change_pull_list
from quotes.calc.answer import AcceptanceError
from quotes.calc.plan import first_steps
from quotes.models import Line, Quote, Revision
from quotes.queries import frozen
from quotes.queries.ceilings import refuse_above_ceiling
from quotes.queries.changes import AgreedQuote, TakenKey, agreed_job
from quotes.queries.choices import taken_lines
from quotes.services.sold_work import chosen_operations, loose_parts, pull_needs, sold_operations, supplied_kits
from shop.access import Actor
from shop.models import Agreement, Job, JobOperation
from shop.models.jobs import ENDED
from shop.services.jobs import change_steps


def change_sold_work(
    actor: Actor,
    quote: Quote,
    revision: Revision,
    document: Mapping[str, Any],
    now: datetime,
    *,
    not_before: date | None,
    unasked: bool = False,
) -> Agreement:
    """Adds a further agreement to the quote's job, under the job's lock. What it adds waits until `not_before`.

    Refuses `job_ended`; `taken_before`, if another change has taken one of its items off in the meantime; and `ask`
    for a change that the workshop makes without asking (`unasked`) and that does not keep within the ceiling.
    """
    assert quote.job_id is not None
    job = Job.objects.select_for_update(of=("self",)).select_related("customer", "vehicle").get(pk=quote.job_id)
    if job.state in ENDED:
        raise AcceptanceError("job_ended")
    if unasked:
        refuse_above_ceiling(quote, document)
    agreed = agreed_job(job, actor.shop)
    off = taken_keys(document)
    if agreed.gone & off:
        raise AcceptanceError("taken_before")
    lines = list(taken_lines(revision, frozen.selection_of(document)))
    kits = [line.kit_revision for line in lines if line.kit_revision is not None]
    added = sold_operations(quote, [kit.labour_id for kit in kits], document, chosen_operations(lines))
    sources = [source for source in agreed.quotes if str(source.revision.pk) in {of for of, _ in off}]
    agreement = change_steps(
        actor=actor,
        job=job,
        added=added,
        cancelled=_cancelled_steps(job, sources, off),
        now=now,
        not_before=not_before,
    )
    copies = _copies(job, sources, off)
    work = [operation.code for operation in added]
    firsts = first_steps([(operation.code, operation.sheet["kits"]) for operation in added])
    change_pull_list(
        actor=actor,
        agreement=agreement,
        kits=kits,
        needs=[*pull_needs(document, work, firsts), *loose_parts(lines)],
        vehicle_attributes=dict(document["vehicle"]["attributes"]),
        now=now,
        firsts=[firsts.get(kit["letter"], "") for kit in document["shown"]["kits"]],
        supplied=supplied_kits(lines),
        gone=_cancelled_lines(job, sources, off, copies),
    )
    put_on_shelf(actor=actor, copies=copies)
    return agreement


def taken_keys(document: Mapping[str, Any]) -> frozenset[TakenKey]:
    """The items that a frozen text takes off its job."""
    return frozenset((line["source"], line["item"]) for line in document["shown"].get("taken", ()))


def _cancelled_steps(job: Job, sources: Iterable[AgreedQuote], off: frozenset[TakenKey]) -> list[UUID]:
    """The standing steps of the operations that are taken off. Steps opened before `item` was kept have their code."""
    steps = JobOperation.objects.filter(shop=job.shop_id, job=job, cancellation=None)
    cancelled = []
    for source in sources:
        keys = {item for of, item in off if of == str(source.revision.pk)}
        for step in steps.filter(origin=source.agreement):
            if step.sheet.get("item", f"labour:{step.code}") in keys:
                cancelled.append(step.pk)
    return cancelled


def _copies(job: Job, sources: Iterable[AgreedQuote], off: frozenset[TakenKey]) -> list[KitCopy]:
    """The copies of the kits that are taken off: for each kit one that is still for the job."""
    copies = list(KitCopy.objects.filter(shop=job.shop_id, job=job).order_by("number"))
    going = []
    for source in sources:
        ids = {item.removeprefix("kit:") for of, item in off if of == str(source.revision.pk) and item[:4] == "kit:"}
        for line in Line.objects.filter(shop=job.shop_id, revision=source.revision, pk__in=ids).order_by("position"):
            copy = next((copy for copy in copies if copy.revision_id == line.kit_revision_id), None)
            if copy is not None:
                copies.remove(copy)
                going.append(copy)
    return going


def _cancelled_lines(
    job: Job, sources: Iterable[AgreedQuote], off: frozenset[TakenKey], copies: Iterable[KitCopy]
) -> list[UUID]:
    """The lines of the pull list that go: needs and loose parts by their item, contents with their copy of the kit."""
    lines = PullLine.objects.filter(shop=job.shop_id, pull_list__job=job, retired_at=None)
    going = list(lines.filter(copy__in=[copy.pk for copy in copies]).values_list("pk", flat=True))
    for source in sources:
        keys = {item for of, item in off if of == str(source.revision.pk)}
        titles = {item.title for item in source.items if item.kind == "need" and item.key in keys}
        for id, detail in lines.filter(origin=source.agreement, kind="need").values_list("pk", "detail"):
            if detail.get("item", "") in keys or ("item" not in detail and detail.get("need") in titles):
                going.append(id)
    return going
