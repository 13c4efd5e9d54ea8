"""Finds the reasons why a draft cannot be sent yet."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from quotes.calc.combinations import MOST_OFFERED, MOST_PRICED, count, nameable
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
    """A reason. `notice` is the notice of a figure, `n` the number of combinations, `most` their maximum.

    `about`: the choice that has not enough options, or whose `option` has no lines.
    """

    code: Literal[
        "customer", "vehicle", "empty", "notice", "too_many", "none_fits", "choice", "option", "too_many_choices"
    ]
    notice: Reason | None = None
    n: int = 0
    most: int = 0
    about: str = ""
    option: str = ""


class NotSendableError(Exception):
    """The draft cannot be sent in its present state."""

    def __init__(self, stops: tuple[Stop, ...]) -> None:
        super().__init__(", ".join(stop.code for stop in stops))
        self.stops = stops


def what_stops(revision: Revision, figures: QuoteFigures) -> tuple[Stop, ...]:
    """The reasons, in the order in which one settles them; empty for a draft that can be sent."""
    return tuple(_stops(revision, figures))


def _stops(revision: Revision, figures: QuoteFigures) -> Iterator[Stop]:
    if revision.quote.customer is None:
        yield Stop("customer")
    if revision.quote.vehicle is None:
        yield Stop("vehicle")
    if all(price.priced.empty for price in figures.possible):
        yield Stop("empty")
    yield from (Stop("choice", about=choice.title) for choice in figures.choices if choice.incomplete)
    if figures.too_many:
        yield Stop("too_many_choices", n=figures.ways, most=MOST_PRICED)
    for choice in figures.choices:
        yield from (Stop("option", about=choice.title, option=option.title) for option in choice.without_lines)
    all_notices = [notice for price in figures.possible for notice in notices(price.loaded, price.priced)]
    yield from (Stop("notice", notice=reason) for reason in dict.fromkeys(all_notices) if reason.code in STOPPING)
    if figures.open and not figures.offered:
        yield Stop("too_many", n=count(figures.open), most=MOST_OFFERED)
    elif figures.open and not any(_can_be_accepted(price) for price in figures.possible):
        yield Stop("none_fits")


def _can_be_accepted(possibility: Possibility) -> bool:
    return not possibility.unfit and nameable(possibility.stated)
