"""The words of a change to an open job, for its page, its receipt and its paper."""

from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.forms import FrozenContent
from shop.calc.quantity import money
from shop.words import say
from shop.words.figures import figure


@dataclass(frozen=True, slots=True)
class ChangeText:
    """The sums agreed before a change and with it, as text."""

    title: str
    about: str
    before: str
    this: str
    after: str
    left: str
    declined: str


def change_text(document: FrozenContent) -> ChangeText | None:
    """The words of a change; None for a quote that opens a job."""
    change = document.get("change")
    if change is None:
        return None
    gross, exponent = document["shown"]["totals"]["gross"], document["shop"]["exponent"]
    ceiling = change["ceiling"]
    agreed = ceiling if ceiling and Decimal(ceiling["ceiling"]) else {}  # without a ceiling the terms say so
    left = {name: f"{figure(amount)} {document['shop']['currency']}" for name, amount in agreed.items()}
    return ChangeText(
        title=say("customer.change.title", job=change["job"]),
        about=say("customer.change.about", of=change["of"]),
        before=figure(change["agreed"]),
        this=figure(gross),
        after=figure(money(Decimal(change["agreed"]) + Decimal(gross), exponent)),
        left=say("customer.change.left", **left) if left else "",
        declined=say("customer.change.declined", job=change["job"]),
    )
