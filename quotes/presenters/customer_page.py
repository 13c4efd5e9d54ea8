"""The facts of the customer's page, for the customer and for the advisor who looks at it before or after sending."""

from collections.abc import Collection, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.conf import settings

from quotes.calc.answer import UNKNOWN, AcceptanceError
from quotes.models import Quote, Revision
from quotes.presenters.acceptance_form import form_facts, form_values
from quotes.presenters.customer import presented
from quotes.presenters.possible_prices import common_ready, dates_of_each, rows_of
from quotes.presenters.price_grid import grid_of
from quotes.presenters.promise import Dates
from shop.models import Shop
from shop.words import say


def dates_shown(document: Mapping[str, Any], shop: Shop, state: str, now: datetime) -> list[Dates]:
    """The dates of each price as of `now`; without words once the quote can no longer be accepted."""
    if state == Revision.State.SENT:
        return dates_of_each(document, shop, now)
    return [Dates()] * (len(document.get("possible", ())) or 1)


def gets_mail(quote: Quote) -> bool:
    """Whether the receipt of an acceptance goes out by e-mail."""
    return bool(settings.MAIL_IS_SENT and quote.customer and quote.customer.email)


def page_facts(
    document: dict[str, Any],
    digest: str,
    state: str,
    every: Sequence[Dates],
    *,
    price: str = "",
    ticked: Collection[str] = (),
    refused: AcceptanceError | None = None,
) -> dict[str, Any]:
    """The facts of the page's template, without those of a link."""
    first, possible = every[0], rows_of(document, every, price)
    differing = sum(bool(row.differs) for row in possible)
    return {
        **presented(document, digest),
        "state": state,
        "open": state == Revision.State.SENT,
        "digest": digest,
        "possible": possible,
        "grid": grid_of(document, possible),
        "each_ready": common_ready(possible),
        "several_differ": differing if differing > 1 else 0,
        "unknown_chosen": price == UNKNOWN,
        "shown_half_days": form_values(every),
        "promise": first.early.promise,
        "no_date": first.early.no_date,
        **form_facts(document, first, ticked, refused),
    }


def preview_facts(document: dict[str, Any], revision: Revision, now: datetime) -> dict[str, Any]:
    """The facts of the page for the workshop: it cannot be answered, and says that only the workshop sees it.

    `document` is the frozen text, of a draft the one that sending it now would freeze.
    """
    draft = revision.state == Revision.State.DRAFT
    state = Revision.State.SENT if draft else revision.state_at(now)
    facts = page_facts(document, revision.digest, state, dates_shown(document, revision.shop, state, now))
    facts["by_mail"] = gets_mail(revision.quote)
    if draft:
        return facts | {"preview": say("customer.preview.draft"), "mark": say("customer.preview.mark")}
    return facts | {"preview": say("customer.preview.sent")}
