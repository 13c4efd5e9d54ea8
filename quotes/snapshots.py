"""The frozen text of a sent issue: what was shown, and what its totals were computed from."""

import json
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from quotes.calc.frozen import document_from, document_json
from quotes.figures import Figures
from quotes.models import Revision
from quotes.showing import money
from shop.calc.snapshot import canonical
from shop.calc.tax import total_document

FORM = 1


def snapshot_text(revision: Revision, found: Figures, *, sent_at: datetime, valid_until: datetime) -> str:
    """The canonical text; its SHA-256 is what the customer's yes is tied to."""
    quote, shop, rules = revision.quote, revision.shop, found.loaded.input.rules
    assert quote.customer is not None and quote.vehicle is not None
    vehicle = quote.vehicle
    document = {
        "form": FORM,
        "shop": {
            "name": shop.name,
            "phone": shop.phone,
            "currency": shop.currency,
            "exponent": shop.exponent,
            "zone": shop.zone,
        },
        "quote": {
            "number": f"Q-{quote.number}",
            "issue": revision.number,
            "sent_at": stamp(sent_at),
            "valid_until": stamp(valid_until),
            "valid_day": valid_until.astimezone(ZoneInfo(shop.zone)).date().isoformat(),
        },
        "customer": {"id": str(quote.customer.pk), "name": quote.customer.name},
        "vehicle": {
            "id": str(vehicle.pk),
            "title": vehicle.title,
            "vin_tail": vehicle.vin[-6:],
            "plate": vehicle.plate,
            "attributes": [[name, value] for name, value in sorted(vehicle.attributes.items())],
        },
        "rules": {
            "number": revision.rules.number,
            "valid_from": revision.rules.valid_from.isoformat(),
            "prices_include_tax": rules.prices_include_tax,
            "standing": list(rules.standing_words),
            "cautions": list(rules.cautions),
            "consents": [{"code": each.code, "text": each.text} for each in rules.consents],
        },
        "condition": revision.condition,
        "shown": found.shown,
        "inputs": document_json(found.priced.document),
    }
    return canonical(document)


def stamp(instant: datetime) -> str:
    """RFC 3339 in UTC, whole seconds."""
    return instant.astimezone(ZoneInfo("UTC")).strftime("%Y-%m-%dT%H:%M:%SZ")


def read(revision: Revision) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(revision.snapshot)
    return found


def gross_of(kept: dict[str, Any]) -> str:
    """The total with tax, recomputed from the snapshot's inputs alone."""
    document = document_from(kept["inputs"])
    return money(total_document(document).gross, document.exponent)
