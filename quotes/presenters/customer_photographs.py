"""Words for the photographs on the customer's page."""

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID
from zoneinfo import ZoneInfo

from quotes.queries.shown_photographs import CustomerPhotograph
from shop.presenters.dates import day_words
from shop.words import say


@dataclass(frozen=True, slots=True)
class PhotographRow:
    """A photograph with its size in pixels. `alt` says what it shows; `caption` adds the day."""

    id: UUID
    width: int
    height: int
    alt: str
    caption: str


def photograph_rows(photographs: Sequence[CustomerPhotograph], zone: str) -> list[PhotographRow]:
    return [
        PhotographRow(
            id=photograph.mark.photograph_id,
            width=photograph.mark.width or 1,
            height=photograph.mark.height or 1,
            alt=say("customer.photograph.alt", n=number, event=photograph.occurrence.line.event),
            caption=say(
                "customer.photograph.caption",
                event=photograph.occurrence.line.event,
                day=day_words(photograph.occurrence.recorded_at.astimezone(ZoneInfo(zone)).date()),
            ),
        )
        for number, photograph in enumerate(photographs, start=1)
    ]
