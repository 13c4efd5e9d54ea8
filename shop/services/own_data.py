"""The shop's own data: name, address and everything else that customers read about it."""

from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.models import Shop
from shop.services import history

OWN_DATA = ("name", "address", "phone", "email", "registration", "tax_number")


@transaction.atomic
def change_own_data(*, actor: Actor, facts: dict[str, Any]) -> Shop:
    """Sets the data that later texts show. Texts that were sent keep the data of their time."""
    shop = Shop.objects.select_for_update().get(pk=actor.shop.pk)
    before = {name: getattr(shop, name) for name in OWN_DATA}
    for name in OWN_DATA:
        setattr(shop, name, facts[name])
    shop.clean_fields()
    after = {name: getattr(shop, name) for name in OWN_DATA}
    if changes := {name: [before[name], after[name]] for name in OWN_DATA if before[name] != after[name]}:
        shop.save(update_fields=OWN_DATA)
        history.record(actor=actor, verb="changed", row=shop, changes=changes)
    return shop
