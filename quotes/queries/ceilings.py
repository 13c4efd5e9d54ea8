"""The ceiling of a job, measured against the changes that were made to it."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from quotes.calc.answer import AcceptanceError
from quotes.calc.ceiling import CeilingCheck
from quotes.calc.job_ceiling import AcceptedChange, job_ceiling
from quotes.models import Decision, Quote, Revision
from quotes.queries.changes import AgreedJob, agreed_job
from shop.calc.quantity import money


def measured(agreed: AgreedJob, extra: Decimal = Decimal(0)) -> CeilingCheck | None:
    """The rest of the job's ceiling after the accepted changes and this one; None where the quote names no ceiling."""
    changes = [AcceptedChange(change.gross, change.way == Decision.Way.CEILING) for change in agreed.changes]
    return job_ceiling(agreed.quotes[0].document, changes, extra) if agreed.quotes else None


def refuse_above_ceiling(quote: Quote, document: Mapping[str, Any]) -> None:
    """Refuses `ask`: the customer has to be asked, for what is above the ceiling or takes something off."""
    if quote.job_id is None:
        raise AcceptanceError("ask")
    check = measured(agreed_job(quote.job_id, quote.shop_id), Decimal(document["shown"]["totals"]["gross"]))
    if check is None or check.status == "ask" or document["shown"].get("taken"):
        raise AcceptanceError("ask")


def change_facts(revision: Revision) -> dict[str, Any]:
    """The part of a change's frozen text about its job: the sums agreed before, and the rest of the ceiling."""
    quote, exponent = revision.quote, revision.shop.exponent
    if not quote.additional or quote.job_id is None:
        return {}
    agreed = agreed_job(quote.job_id, revision.shop_id)
    check = measured(agreed)
    change = {
        "job": str(quote.job),
        "number": len(agreed.changes) + 1,
        "of": agreed.quotes[0].document["quote"]["number"],
        "agreed": money(agreed.gross, exponent),
        "ceiling": check and {"ceiling": money(check.ceiling, exponent), "left": money(check.left, exponent)},
    }
    return {"change": change}
