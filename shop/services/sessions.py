"""Sign-ins as rows: ending them, and clearing those that have ended by themselves."""

from datetime import datetime
from uuid import UUID

from shop.models import PersonSession


def end_sessions(*, user: UUID, keep: str | None = None) -> int:
    """Ends the person's sign-ins on every device, but for the session with the key `keep`; how many there were."""
    rows = PersonSession.objects.filter(user_id=user)
    return (rows if keep is None else rows.exclude(pk=keep)).delete()[0]


def purge_sessions(*, now: datetime) -> int:
    """Removes sessions past their limit; how many there were."""
    return PersonSession.objects.filter(expire_date__lt=now).delete()[0]
