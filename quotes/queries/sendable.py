"""The reasons why a draft cannot be sent yet."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from quotes.calc.combinations import MOST_OFFERED, count, nameable
from quotes.models import Revision
from quotes.queries.notices import notices
from quotes.queries.pricing import Possibility, QuoteFigures
from shop.calc.reason import Reason

STOPPING = (
    "no_rate",
    "no_price",
    "no_part_price",
    "no_pack",
    "capacity_unknown",
    "mix_drain_more",
    "mix_too_strong",
    "discount_too_large",
)


@dataclass(frozen=True, slots=True)
class Stop:
    """One thing to settle. `notice`: the notice of a figure; `n`: how many combinations, and `most` of them."""

    code: Literal["customer", "vehicle", "empty", "notice", "too_many", "none_fits"]
    notice: Reason | None = None
    n: int = 0
    most: int = 0


class NotSendableError(Exception):
    """The draft cannot be sent as it stands."""

    def __init__(self, stops: tuple[Stop, ...]) -> None:
        super().__init__(", ".join(stop.code for stop in stops))
        self.stops = stops


def what_stops(revision: Revision, found: QuoteFigures) -> tuple[Stop, ...]:
    """In the order in which one settles it; empty for a draft that can be sent."""
    return tuple(_stops(revision, found))


def _stops(revision: Revision, found: QuoteFigures) -> Iterator[Stop]:
    if revision.quote.customer is None:
        yield Stop("customer")
    if revision.quote.vehicle is None:
        yield Stop("vehicle")
    if not (found.priced.kits or found.priced.extras or found.priced.outside):
        yield Stop("empty")
    told = [notice for each in found.possible for notice in notices(each.loaded, each.priced)]
    yield from (Stop("notice", notice=each) for each in dict.fromkeys(told) if each.code in STOPPING)
    if found.open and not found.offered:
        yield Stop("too_many", n=count(found.open), most=MOST_OFFERED)
    elif found.open and not any(_can_be_accepted(each) for each in found.possible):
        yield Stop("none_fits")


def _can_be_accepted(each: Possibility) -> bool:
    return not each.unfit and nameable(each.stated)
