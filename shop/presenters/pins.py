from shop.answers.base import utc
from shop.answers.pins import PinOut
from shop.models import PhonePin
from shop.presenters.session import kind_of_device


def pin_answer(row: PhonePin, device_hash: str) -> PinOut:
    """One PIN. `device_hash` is of the device that asks."""
    return PinOut(
        id=row.pk,
        here=row.device_hash == device_hash,
        device=kind_of_device(row.agent),
        set_at=utc(row.set_at),
        ends_at=utc(row.expires_at),
        used_up=row.tries_left == 0,
    )
