"""The time until which a link works, by its row and that of its quote's job."""

from datetime import datetime

from quotes.calc.link_life import last_moment
from quotes.models import Link


def works_until(link: Link) -> datetime | None:
    """The last moment at which the link works, unless it is cancelled; None while the job is open."""
    job = link.quote.job
    return last_moment(
        link.expires_at,
        has_job=job is not None,
        ended_on=(job.handed_over_on or job.called_off_on) if job else None,
        zone=link.shop.zone,
    )


def works_at(link: Link, now: datetime) -> bool:
    if link.revoked_at is not None:
        return False
    end = works_until(link)
    return end is None or end >= now
