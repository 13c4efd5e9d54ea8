"""The progress of a job in dated sentences, for the customer's page."""

from collections.abc import Iterable
from dataclasses import dataclass

from quotes.queries.progress import JobEvent, Milestone
from shop.presenters.dates import day_words
from shop.words import say
from shop.words.figures import figure

SENTENCES: dict[Milestone, str] = {
    "accepted": "customer.progress.accepted",
    "checked": "customer.progress.checked",
    "in_bay": "customer.progress.in_bay",
    "handed_over": "customer.progress.handed_over",
    "called_off": "customer.progress.called_off",
}


@dataclass(frozen=True, slots=True)
class ProgressRow:
    day: str
    words: str


def progress_rows(events: Iterable[JobEvent]) -> list[ProgressRow]:
    return [ProgressRow(day_words(event.day), _sentence(event)) for event in events]


def _sentence(event: JobEvent) -> str:
    if event.agreed is None:
        return event.words or say(SENTENCES[event.milestone])
    content, charge = event.agreed.content, event.agreed.charge
    facts = {"event": content["event"], "title": content["title"], "price": figure(content["price"])}
    return say("customer.progress.happened", n=charge.charged, **facts)


def newest_date(events: Iterable[JobEvent]) -> str:
    """The sentence on the last date that the customer was told after the acceptance; empty without one."""
    return next((event.words for event in reversed(tuple(events)) if event.milestone == "date"), "")
