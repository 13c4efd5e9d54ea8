"""The change feed: one number for each shop and kind, from which an open screen sees what to read again."""

from django.db.models import F

from shop.access import Actor
from shop.models import ChangeNumber
from shop.models.changes import ChangeKind

Kind = ChangeKind


def record(*, actor: Actor, kind: Kind) -> None:
    """Raises the kind's number. Call it last in the transaction of the change, after its line of history.

    The row stays locked until the commit, so a reader sees the numbers in the order of the commits. A transaction with
    several kinds raises them in alphabetical order, which prevents deadlocks.
    """
    row = ChangeNumber.objects.filter(shop=actor.shop, kind=kind)
    if row.update(number=F("number") + 1):
        return
    ChangeNumber.objects.bulk_create([ChangeNumber(shop=actor.shop, kind=kind)], ignore_conflicts=True)
    row.update(number=F("number") + 1)
