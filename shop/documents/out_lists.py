"""The jobs and the people of a shop as lists for a spreadsheet."""

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from shop import access
from shop.access import OFFICE, Actor
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


PEOPLE_COLUMNS = ("person", "email", "role", "member_since", "signed_in")


def people(actor: Actor) -> Iterator[Sequence[Content]]:
    """A row for each active member by name."""
    zone = ZoneInfo(actor.shop.zone)
    for member in access.members(actor):
        times = (member.since, member.user.last_login)
        yield (
            *(member.user.name, member.user.email, member.role),
            *(time.astimezone(zone).date().isoformat() if time else None for time in times),
        )


register(OutList("people", PEOPLE_COLUMNS, people, OFFICE))
