"""The customer's answer: its form, which of several prices it states, and why it may not count."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from shop.calc.days import Half

UNKNOWN = "unknown"  # the form's value of "I do not know"
HALVES: tuple[Half, ...] = ("morning", "afternoon")


class AcceptanceError(Exception):
    """Why the answer cannot count: replaced, withdrawn, lapsed, link, answered, incomplete, moved; of a text with
    several prices also unknown, unfit, contradicts.

    An incomplete answer has every fault: "name", "price", and the code of each required consent that is not ticked.
    """

    def __init__(self, code: str, *, name: bool = False, consents: tuple[str, ...] = (), price: bool = False) -> None:
        super().__init__(code)
        self.code, self.name, self.consents, self.price = code, name, consents, price


@dataclass(frozen=True, slots=True)
class AnswerForm:
    """The customer's form: the revision and digest they saw, their typed name, what they ticked, from where.

    `ready` is the half day that was shown, as the form carries it; empty where none was. `ready_later` is the one for
    an answer that leaves the withdrawal period alone. `price` names one of several by its place, or says `unknown`.
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
    words: tuple[str, ...] = ()  # what stood above the answer, besides the frozen text


def place_of(content: Mapping[str, Any], price: str) -> int | None:
    """The place of the price that the form names among those of the frozen text; None where it names none."""
    count = len(content.get("possible", ()))
    return int(price) if price.isdecimal() and len(price) < 3 and int(price) < count else None


def contradicts(stated: Sequence[Sequence[str]], attributes: Mapping[str, str]) -> bool:
    """Whether the vehicle has another value recorded than the one that the customer states."""
    return any(attributes.get(name, value) not in ("", value) for name, value in stated)


def half_day_value(promise: Mapping[str, Any] | None) -> str:
    """The form's value of the promise that is shown: '2026-12-10 afternoon'; empty without one."""
    return f"{promise['ready']['day']} {promise['ready']['half']}" if promise else ""


def half_day_of(value: str) -> tuple[date, int] | None:
    """(day, place in HALVES) of a form's value; None for any other text."""
    day, _, half = value.partition(" ")
    try:
        return date.fromisoformat(day), HALVES.index(half)
    except ValueError:
        return None


def moved_later(form_value: str, promise: Mapping[str, Any] | None) -> bool:
    """Whether today's promise is later than the half day that was shown, or there is none any more."""
    promised, today = half_day_of(form_value), half_day_of(half_day_value(promise))
    return promised is not None and (today is None or today > promised)
