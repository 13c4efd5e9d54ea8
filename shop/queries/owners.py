"""The changes of a vehicle's owner, which stand in its history."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from shop.models import History, Vehicle

OWNER_CHANGED = "owner changed"


@dataclass(frozen=True, slots=True)
class OwnerChange:
    """A change of owner: the names of that time, the day since when, and who recorded it at what time."""

    before: str
    after: str
    since: date
    recorded_at: datetime
    by: str | None


def owner_changes(vehicle: Vehicle) -> list[OwnerChange]:
    """All changes of the vehicle's owner, the newest first."""
    return [_change(row) for row in _rows(vehicle).order_by("-recorded_at", "-id")]


def owner_change_since(vehicle: Vehicle, instant: datetime) -> OwnerChange | None:
    """The newest change that was recorded after an instant."""
    row = _rows(vehicle).filter(recorded_at__gt=instant).order_by("-recorded_at", "-id").first()
    return None if row is None else _change(row)


def _rows(vehicle: Vehicle) -> Any:
    rows = History.objects.filter(shop=vehicle.shop_id, subject="vehicle", subject_id=vehicle.pk, verb=OWNER_CHANGED)
    return rows.select_related("author__user")


def _change(row: History) -> OwnerChange:
    before, after = row.changes["owner"]
    by = row.author.user.name if row.author else None
    return OwnerChange(before, after, date.fromisoformat(row.changes["since"][1]), row.recorded_at, by)
