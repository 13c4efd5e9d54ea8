"""Runs races: acts that begin at the same instant, with the outcome of each."""

from collections.abc import Callable
from typing import Any

from quotes.calc.answer import AcceptanceError
from shop.errors import RequestError
from tests.at_once import at_once

MANY = 6
OF_NO_QUOTE = 900_000  # and above: numbers of jobs that a race opens by itself


def race(*acts: Callable[[], Any]) -> list[Any]:
    """The result of each act, or the code of its refusal; any other exception is raised."""
    return [_told(outcome) for outcome in at_once(*acts)]


def _told(outcome: Any) -> Any:
    if isinstance(outcome, AcceptanceError | RequestError):
        return outcome.code
    if isinstance(outcome, Exception):
        raise outcome
    return outcome
