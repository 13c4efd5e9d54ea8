"""Copies of kits: numbered in their kit, each for a job, for the shelf or in quarantine."""

from collections import Counter
from collections.abc import Sequence

from django.db import transaction
from django.db.models import Max

from kitting.models import Kit, KitCopy, KitRevision
from shop.access import Actor
from shop.models import Job


@transaction.atomic
def add_copies(*, actor: Actor, job: Job, kits: Sequence[KitRevision]) -> list[KitCopy]:
    """Adds a copy of each revision for the job, in their order, not received yet."""
    of = {revision.kit_id for revision in kits}
    list(Kit.objects.select_for_update().filter(shop=actor.shop, pk__in=of).order_by("pk").values_list("pk"))
    last = KitCopy.objects.filter(shop=actor.shop, kit__in=of).values_list("kit").annotate(last=Max("number"))
    numbers = Counter(dict(last.values_list("kit", "last")))
    copies = []
    for revision in kits:
        numbers[revision.kit_id] += 1
        number = numbers[revision.kit_id]
        copies.append(
            KitCopy(shop=actor.shop, kit_id=revision.kit_id, revision=revision, number=number, purpose="job", job=job)
        )
    return KitCopy.objects.bulk_create(copies)
