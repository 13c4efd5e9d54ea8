from shop.answers.base import utc
from shop.answers.session import Device, SignInOut
from shop.models import PersonSession
from shop.sessions import AGENT, session_id


def sign_in_answer(row: PersonSession, here: str | None) -> SignInOut:
    """One sign-in. `here` is the key of this request's session."""
    return SignInOut(
        id=session_id(row.pk),
        here=row.pk == here,
        device=kind_of_device(row.get_decoded().get(AGENT, "")),
        started_at=utc(row.started_at),
        ends_at=utc(row.expire_date),
    )


def kind_of_device(agent: str) -> Device:
    """The kind of device by the agent of its browser: those on a phone name "Mobi"."""
    if not agent:
        return "unknown"
    return "phone" if "Mobi" in agent else "computer"
