"""Sign-ins as rows: lists them, ends them, and removes those past their limit."""

from datetime import datetime
from uuid import UUID

from shop.models import PersonSession, PhonePin
from shop.sessions import session_id


def sessions_of(*, user: UUID, now: datetime) -> list[PersonSession]:
    """The person's current sign-ins, newest first."""
    return list(PersonSession.objects.filter(user_id=user, expire_date__gte=now).order_by("-started_at"))


def end_session(*, user: UUID, id: UUID) -> bool:
    """Ends one of the person's sign-ins; False if none of theirs has this id."""
    keys = PersonSession.objects.filter(user_id=user).values_list("pk", flat=True)
    key = next((session_key for session_key in keys if session_id(session_key) == id), None)
    return key is not None and PersonSession.objects.filter(user_id=user, pk=key).delete()[0] > 0


def end_sessions(*, user: UUID, keep: str | None = None) -> int:
    """Ends the person's sign-ins except the session with the key `keep`, and all their PINs. Returns their number."""
    pins = end_pins(user=user)
    rows = PersonSession.objects.filter(user_id=user)
    return pins + (rows if keep is None else rows.exclude(pk=keep)).delete()[0]


def end_pins(*, user: UUID) -> int:
    """Ends the person's PINs on all devices. Returns their number."""
    return PhonePin.objects.filter(user_id=user).delete()[0]


def purge_sessions(*, now: datetime) -> int:
    """Removes sessions past their limit. Returns their number."""
    return PersonSession.objects.filter(expire_date__lt=now).delete()[0]
