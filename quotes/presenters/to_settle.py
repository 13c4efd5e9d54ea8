"""Everything to settle on a draft, each sentence once, with the place on the quote where a person settles it."""

from collections.abc import Iterable, Iterator

from quotes.answers.figures import ShownOut
from quotes.answers.to_settle import Place, ToSettleOut
from quotes.presenters.stops import stop_words
from quotes.queries.sendable import Stop

STOP_PLACES: dict[str, Place] = {
    "customer": "customer",
    "vehicle": "vehicle",
    "empty": "kits",
    "too_many": "open_questions",
    "none_fits": "open_questions",
    "choice": "choices",
    "option": "choices",
    "too_many_choices": "choices",
}
NOTICE_PLACES: dict[str, Place] = {
    "no_rate": "kits",
    "no_price": "kits",
    "no_part_price": "other_lines",
    "no_pack": "fluids",
    "capacity_unknown": "vehicle_facts",
    "drained_unknown": "vehicle_facts",
    "mix_drain_more": "vehicle_facts",
    "mix_too_strong": "vehicle_facts",
    "discount_too_large": "discount",
    "here_from_past": "ready",
}


def to_settle(stops: Iterable[Stop], content: ShownOut, exponent: int) -> list[ToSettleOut]:
    """The points to settle: those that keep the draft from being sent, then missing facts, then notices."""
    once: dict[str, ToSettleOut] = {}
    for item in _all(stops, content, exponent):
        once.setdefault(item.words, item)
    return list(once.values())


def _all(stops: Iterable[Stop], content: ShownOut, exponent: int) -> Iterator[ToSettleOut]:
    for stop in stops:
        (words,) = stop_words([stop], exponent)
        place = NOTICE_PLACES.get(stop.notice.code, "notices") if stop.notice else STOP_PLACES[stop.code]
        yield ToSettleOut(place, words, stops=True)
    for attribute in content.decide:
        yield ToSettleOut("open_questions", attribute.words, stops=False)
    for notice in content.notices:
        yield ToSettleOut(NOTICE_PLACES.get(notice.code, "notices"), notice.words, stops=False)
