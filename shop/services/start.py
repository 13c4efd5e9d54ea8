"""The guided start: the steps that a manager leaves for later."""

from django.db import transaction

from shop.access import Actor
from shop.models import Shop
from shop.services import history


@transaction.atomic
def leave_for_later(*, actor: Actor, step: str, later: bool) -> None:
    """Leaves a step of the guided start for later, or takes it up again."""
    shop = Shop.objects.select_for_update().get(pk=actor.shop.pk)
    steps = [name for name in shop.later_steps if name != step] + ([step] if later else [])
    if steps == shop.later_steps:
        return
    changes = {"later_steps": [shop.later_steps, steps]}
    shop.later_steps = steps
    shop.save(update_fields=["later_steps"])
    actor.shop.later_steps = steps
    history.record(actor=actor, verb="changed", row=shop, changes=changes)
