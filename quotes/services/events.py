"""Events of quotes, for the webhooks of other programs."""

from quotes.models import Quote, Revision
from shop.access import Actor
from shop.services.webhooks import Event, Facts, announce


def announce_revision(*, actor: Actor, event: Event, quote: Quote, revision: Revision) -> None:
    """Announces a version of a quote, with its job once there is one."""
    data: Facts = {
        "quote": str(quote.pk),
        "number": str(quote),
        "version": revision.number,
        "state": str(revision.state),
        "job": str(quote.job_id) if quote.job_id else None,
    }
    announce(actor=actor, event=event, data=data)
