"""Says what putting two records of one customer together would do."""

from collections.abc import Iterator

from quotes.answers.merging import CustomerMergeOut
from quotes.queries.merging import CONTACT, Belongings
from shop.models import Customer
from shop.words import say
from shop.words.figures import listed

COUNTED = ("quotes", "vehicles", "jobs", "payments")


def merge_answer(stays: Customer, goes: Customer, moves: Belongings) -> CustomerMergeOut:
    counts = [say(f"merging.{name}", n=getattr(moves, name)) for name in COUNTED if getattr(moves, name)]
    key = "moves" if counts else "nothing"
    return CustomerMergeOut(
        other=goes.pk,
        version=stays.version,
        other_version=goes.version,
        words=say(f"merging.{key}", rows=listed(counts), name=stays.name, other=goes.name),
        fields=list(_fields(stays, goes, moves)),
    )


def _fields(stays: Customer, goes: Customer, moves: Belongings) -> Iterator[str]:
    """The facts that are taken over, and those that differ and stay with the record that goes."""
    for name in (name for name in CONTACT if name != "language"):
        text = getattr(goes, name)
        if name in moves.lacking:
            yield say(f"merging.takes_{name}", text=text)
        elif text and text != getattr(stays, name):
            yield say(f"merging.leaves_{name}", text=text, own=getattr(stays, name))
