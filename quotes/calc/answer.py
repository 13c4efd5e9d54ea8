"""The customer's answer to a quote: its form, the price it names, and the reasons for which it cannot count."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from shop.calc.days import Half

UNKNOWN = "unknown"  # the form's value of "I do not know"
HALVES: tuple[Half, ...] = ("morning", "afternoon")


class AcceptanceError(Exception):
    """Raised for an answer that cannot count.

    `code` is replaced, withdrawn, expired, link, answered, incomplete or moved; for a text with several prices also
    unknown, unfit or contradicts; for a change to a job job_ended, taken_before or ask. An incomplete answer carries
    all its faults: `name`, `price`, and in `consents` the codes of the required consents that are not ticked.
    """

    def __init__(self, code: str, *, name: bool = False, consents: tuple[str, ...] = (), price: bool = False) -> None:
        super().__init__(code)
        self.code, self.name, self.consents, self.price = code, name, consents, price


@dataclass(frozen=True, slots=True)
class AnswerForm:
    """The customer's form: the revision and digest they saw, their typed name, ticked consents, address and browser.

    `ready` is the half day shown, as the form carries it; empty if none was shown. `ready_later` is the half day for an
    answer that keeps the withdrawal period. `price` is the place of one of several prices, or `unknown`.
    """

    revision: int
    digest: str
    name: str
    consents: tuple[str, ...]
    address: str
    agent: str
    ready: str = ""
    ready_later: str = ""
    price: str = ""
    words: tuple[str, ...] = ()  # the text above the answer that is not in the frozen text
    reason: str = ""  # the customer's reason for declining, if given


def place_of(content: Mapping[str, Any], price: str) -> int | None:
    """The place of the price that the form names among the prices of the frozen text; None if it names none."""
    count = len(content.get("possible", ()))
    return int(price) if price.isdecimal() and len(price) < 3 and int(price) < count else None


def contradicts(stated: Sequence[Sequence[str]], attributes: Mapping[str, str]) -> bool:
    """True if the vehicle has a recorded value that differs from one that the customer states."""
    return any(attributes.get(name, value) not in ("", value) for name, value in stated)


def half_day_value(promise: Mapping[str, Any] | None) -> str:
    """The form's value for a promise: '2026-12-10 afternoon'; empty without a promise."""
    return f"{promise['ready']['day']} {promise['ready']['half']}" if promise else ""


def half_day_of(value: str) -> tuple[date, int] | None:
    """(day, index in HALVES) of a form's value; None for any other text."""
    day, _, half = value.partition(" ")
    try:
        return date.fromisoformat(day), HALVES.index(half)
    except ValueError:
        return None


def moved_later(form_value: str, promise: Mapping[str, Any] | None) -> bool:
    """True if today's promise is later than the half day that was shown, or if there is no promise any more."""
    promised, today = half_day_of(form_value), half_day_of(half_day_value(promise))
    return promised is not None and (today is None or today > promised)
