"""The jobs of a shop as a list for a spreadsheet."""

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from shop import access
from shop.access import Actor
from shop.documents.list_registry import OutList, register
from shop.tables.writing import Content

COLUMNS = ("job", "state", "customer", "vehicle", "plate", "hours", "opened", "handed_over", "called_off")


def jobs(actor: Actor) -> Iterator[Sequence[Content]]:
    zone = ZoneInfo(actor.shop.zone)
    for job in access.jobs(actor).order_by("-number").iterator(chunk_size=500):
        days = (job.opened_at.astimezone(zone).date(), job.handed_over_on, job.called_off_on)
        yield (
            *(
                str(job),
                job.state.replace("_", " "),
                job.customer.name,
                job.vehicle.title,
                job.vehicle.plate,
                job.quoted,
            ),
            *(day.isoformat() if day else None for day in days),
        )


register(OutList("jobs", COLUMNS, jobs))
