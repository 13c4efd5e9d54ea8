"""Copies of kits: numbered in their kit, each for a job, for the shelf or in quarantine."""

from collections import Counter
from collections.abc import Sequence

from django.db import transaction
from django.db.models import Max

from kitting.models import Kit, KitCopy, KitRevision
from shop.access import Actor
from shop.models import Job
from shop.services import history


@transaction.atomic
def add_copies(*, actor: Actor, job: Job, kits: Sequence[KitRevision], supplied: Sequence[bool] = ()) -> list[KitCopy]:
    """Adds a copy of each revision for the job, in their order, not received yet.

    `supplied` says of each whether the customer brings it; empty: of none.
    """
    of = {revision.kit_id for revision in kits}
    list(Kit.objects.select_for_update().filter(shop=actor.shop, pk__in=of).order_by("pk").values_list("pk"))
    last = KitCopy.objects.filter(shop=actor.shop, kit__in=of).values_list("kit").annotate(last=Max("number"))
    numbers = Counter(dict(last.values_list("kit", "last")))
    copies = []
    for revision, own in zip(kits, supplied or [False] * len(kits), strict=True):
        numbers[revision.kit_id] += 1
        number = numbers[revision.kit_id]
        copies.append(
            KitCopy(
                shop=actor.shop,
                kit_id=revision.kit_id,
                revision=revision,
                number=number,
                purpose="job",
                job=job,
                supplied=own,
            )
        )
    return KitCopy.objects.bulk_create(copies)


@transaction.atomic
def put_on_shelf(*, actor: Actor, copies: Sequence[KitCopy]) -> None:
    """Moves copies from their job to the shelf. Their lines and counts stay with them.

    A copy that the customer brought is theirs: it stays with the job until they have it back.
    """
    for copy in (copy for copy in copies if not copy.supplied):
        row = KitCopy.objects.select_for_update().get(pk=copy.pk)
        before = str(row.job_id or "")
        row.purpose, row.job = KitCopy.Purpose.SHELF, None
        row.version += 1
        row.save(update_fields=["purpose", "job", "version"])
        history.record(actor=actor, verb="put on the shelf", row=row, changes={"job": [before, ""]})
