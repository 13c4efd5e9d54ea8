"""Records when missing lines arrive, as a person says."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction

from kitting.models import PullLine, PullList
from kitting.queries.readiness import box_of, counts_of, standing_lines
from kitting.services.pull_lists import locked
from shop.access import Actor
from shop.calc.days import on_the_shelf
from shop.encoding import iso
from shop.errors import FieldError, RequestError, field_error
from shop.queries.calendar import opening_hours
from shop.services import feed, history
from shop.services.jobs import check_day

NOT_DUE = {field.name for field in PullLine._meta.fields} - {"due_at", "due_with_box", "due_unusable"}


@transaction.atomic
def record_due(
    *,
    actor: Actor,
    pull_list: PullList,
    lines: Sequence[UUID],
    day: date | None,
    at: time | None,
    now: datetime,
) -> list[tuple[PullLine, datetime | None]]:
    """Sets when these lines of the list arrive; without a day, the supplier's lead days apply again.

    A day without an hour means closing time on that day. Each line notes how many pieces here cannot be used, to
    distinguish those that come damaged later, and whether its box is still awaited. Returns each line with the instant
    that held before.
    """
    row = locked(pull_list)
    due = _instant(actor, day, at, now)
    standing = standing_lines(actor.shop, row)
    counts = counts_of(actor.shop, row, standing)
    changed = [(line, counts.day(line)) for line in _named(standing, lines)]
    ids: dict[tuple[int | None, bool], list[UUID]] = {}
    for line, _ in changed:
        line.due_at, line.due_unusable = due, counts.unusable(line.pk) if due else None
        line.due_with_box = due is not None and bool(line.kit) and box_of(line) not in counts.opened
        line.clean_fields(exclude=NOT_DUE)
        ids.setdefault((line.due_unusable, line.due_with_box), []).append(line.pk)
    rows = PullLine.objects.filter(shop=actor.shop, pull_list=row)
    for (unusable, with_box), keys in ids.items():
        rows.filter(pk__in=keys).update(due_at=due, due_unusable=unusable, due_with_box=with_box)
    history.record(
        actor=actor,
        verb="due",
        row=row,
        changes={str(line.pk): [iso(before), iso(due)] for line, before in changed},
    )
    feed.record(actor=actor, kind=feed.Kind.PULL_LISTS)
    return changed


def _instant(actor: Actor, day: date | None, at: time | None, now: datetime) -> datetime | None:
    if day is None:
        if at is not None:
            raise field_error("/day", "day_for_time")
        return None
    zone = ZoneInfo(actor.shop.zone)
    check_day(day, now.astimezone(zone).date(), "/day")
    if at is not None:
        return datetime.combine(day, at, zone).astimezone(UTC)  # an hour that the clock skips becomes a later one
    calendar = opening_hours(actor.shop, day)
    if calendar is None:
        raise field_error("/time", "time_without_hours")
    return on_the_shelf(day, calendar)


def _named(standing: Sequence[PullLine], ids: Sequence[UUID]) -> list[PullLine]:
    """The lines with these ids, in their order, each once. Refuses an id that is not on the list."""
    rows = {line.pk: line for line in standing}
    astray = [FieldError(f"/lines/{n}", "not_on_list", {"line": id}) for n, id in enumerate(ids) if id not in rows]
    if astray:
        raise RequestError(400, "invalid", tuple(astray))
    return [rows[id] for id in dict.fromkeys(ids)]
