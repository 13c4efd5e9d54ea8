"""Copies what was chosen for a quote to a new one, for another customer or another vehicle."""

from django.db import transaction

from quotes import access
from quotes.models import Quote, Revision
from quotes.services.drafts import keep_total, start_quote
from quotes.services.revising import copy_chosen
from shop.access import Actor
from shop.models import Customer, Vehicle
from shop.services import history


@transaction.atomic
def copy_quote(
    *, actor: Actor, quote: Quote, customer: Customer | None = None, vehicle: Vehicle | None = None
) -> Revision:
    """Begins a quote with the lines of the newest version of another, at today's prices, rules and kit versions.

    Lines written by hand and outside work keep what a person typed. Own figures, the discount, the condition of the
    fasteners and the day of arrival belong to the other vehicle and are left behind. Photographs are copied too. The
    customer sees none until an advisor shows it: they are of the other vehicle.
    """
    new = start_quote(actor=actor, kits=[], customer=customer, vehicle=vehicle)
    copy_chosen(access.current(quote), new, same_vehicle=False)
    keep_total(new)
    history.record(actor=actor, verb="copied", row=new.quote, changes={"from": [str(quote), ""]})
    return new
