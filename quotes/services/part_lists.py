"""Adds the parts of a pasted list to a draft: all of them or none."""

from collections.abc import Sequence
from decimal import Decimal

from django.db import transaction

from kitting.models import Part
from quotes.models import Quote, Revision
from quotes.services.drafts import changed_draft, open_draft, put_part
from shop.access import Actor


@transaction.atomic
def add_parts(*, actor: Actor, quote: Quote, parts: Sequence[tuple[Part, Decimal]]) -> Revision:
    """Adds a line for each part with its quantity, as one change."""
    revision = open_draft(quote=quote)
    for part, quantity in parts:
        put_part(revision, part, quantity)
    changes = {"parts": ["", ", ".join(part.number for part, _ in parts)]}
    return changed_draft(actor, revision, "parts added", changes)
