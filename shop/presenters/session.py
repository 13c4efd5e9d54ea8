from shop.answers.base import utc
from shop.answers.session import Device, SignInOut
from shop.models import PersonSession
from shop.sessions import AGENT, session_id


def sign_in_answer(row: PersonSession, here: str | None) -> SignInOut:
    """One sign-in. `here` is the key of this request's session. Browsers on a phone name "Mobi" in their agent."""
    agent = row.get_decoded().get(AGENT, "")
    device: Device = "unknown"
    if agent:
        device = "phone" if "Mobi" in agent else "computer"
    return SignInOut(
        id=session_id(row.pk),
        here=row.pk == here,
        device=device,
        started_at=utc(row.started_at),
        ends_at=utc(row.expire_date),
    )
