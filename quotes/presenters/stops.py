"""Sentences on the matters to settle before a draft can be sent."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from quotes.presenters.reason_words import worded_notice
from quotes.queries.sendable import NotSendableError, Stop
from shop.errors import RequestError
from shop.words import say

SENTENCES = {
    "customer": "quote.stop_customer",
    "vehicle": "quote.stop_vehicle",
    "empty": "quote.stop_empty",
    "too_many": "undecided.too_many",
    "none_fits": "undecided.none_fits",
    "choice": "quote.stop_choice",
    "option": "quote.stop_option",
    "too_many_choices": "quote.stop_choices",
}


def stop_words(stops: Iterable[Stop], exponent: int) -> list[str]:
    return [_words(stop, exponent) for stop in stops]


@contextmanager
def stops_refused(exponent: int) -> Iterator[None]:
    """Turns NotSendableError into a 409 with its sentences."""
    try:
        yield
    except NotSendableError as error:
        raise RequestError(409, "not-ready-to-send", why=" ".join(stop_words(error.stops, exponent))) from None


def _words(stop: Stop, exponent: int) -> str:
    if stop.notice is not None:
        return worded_notice(stop.notice, exponent).words
    return say(SENTENCES[stop.code], n=stop.n, most=stop.most, title=stop.about, option=stop.option)
