"""The withdrawal period of a customer who did not ask for an earlier start."""

from datetime import date


def is_waiting(not_before: date | None, today: date) -> bool:
    """Whether nothing may be ordered or begun yet: the customer may still withdraw."""
    return not_before is not None and not_before > today
