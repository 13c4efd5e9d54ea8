"""The stored content of a release: the proposals of that moment, with their text."""

from datetime import datetime

from msgspec import to_builtins

from quotes.calc.forms import FrozenContent
from quotes.presenters.releases import to_release
from quotes.queries.releases import ReleaseFacts, arrived_quantities, goods_of
from shop.access import Actor
from shop.calc.quantity import plain
from shop.models import Job


def release_content(actor: Actor, job: Job, facts: ReleaseFacts, now: datetime) -> FrozenContent:
    """The proposals as plain data; both lists are empty if there is nothing to order."""
    here = goods_of(actor.shop, facts)
    arrived = arrived_quantities(facts.releases, here)
    content: FrozenContent = to_builtins(to_release(actor, job, facts, arrived, now))
    numbers = {line["number"] for order in content["suppliers"] for line in order["lines"]}
    content["here"] = {  # from which later counts show what has come of it
        number: {key: plain(quantity) for key, quantity in here.get(number, {}).items()} for number in numbers
    }
    return content
