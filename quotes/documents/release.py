"""The content of a release as it is kept: what was proposed at that moment, with its text."""

from datetime import datetime

from msgspec import to_builtins

from kitting.queries.here import goods_here
from quotes.calc.forms import FrozenContent
from quotes.presenters.releases import to_release
from quotes.queries.releases import ReleaseFacts
from shop.access import Actor
from shop.calc.quantity import plain
from shop.models import Job


def release_content(actor: Actor, job: Job, facts: ReleaseFacts, now: datetime) -> FrozenContent:
    """The proposals as plain data; both lists are empty if there is nothing to order."""
    content: FrozenContent = to_builtins(to_release(actor, job, facts, now))
    here = goods_here(actor.shop, facts.pull_list) if facts.pull_list else {}
    numbers = {line["number"] for order in content["suppliers"] for line in order["lines"]}
    content["here"] = {  # from which later counts show what has come of it
        number: {key: plain(quantity) for key, quantity in here.get(number, {}).items()} for number in numbers
    }
    return content
