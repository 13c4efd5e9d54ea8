"""Keeps the advisor's choices of how a draft charges its consumables."""

from django.db import transaction

from quotes.models import Override, Quote, Revision
from quotes.services.drafts import changed_draft, open_draft
from shop.access import Actor


@transaction.atomic
def choose_charge(*, actor: Actor, quote: Quote, item: str, way: str | None, seen: int) -> Revision:
    """Charges an item of a need as whole packs, as used, or within the shop supplies.

    None goes back to the rules and the kits. A person's own price belongs to the earlier way of charging and is
    removed.
    """
    revision = open_draft(quote=quote, seen=seen)
    before = revision.charges.get(item)
    if way == before:
        return revision
    revision.charges = {other: chosen for other, chosen in revision.charges.items() if other != item}
    if way is not None:
        revision.charges[item] = way
    revision.save(update_fields=["charges"])
    key = f"need:{item}"
    Override.objects.filter(shop=revision.shop, revision=revision, figure=key).delete()
    return changed_draft(actor, revision, "charge chosen", {key: [before or "", way or ""]}, key)
