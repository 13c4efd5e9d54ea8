"""Lines that a quote charges only if something happens, for the counter and for the customer."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from msgspec import UNSET, UnsetType

from quotes.answers.figures import ContingencyKind, ContingencyOut, OverrideOut
from quotes.calc.forms import FrozenContent
from quotes.calc.priced import PricedContingency
from quotes.presenters.line_photographs import LinePictures, line_pictures
from shop.calc.quantity import money, plain, unit_money
from shop.words import say
from shop.words.figures import figure


@dataclass(frozen=True, slots=True)
class ContingencyRow:
    """A row of the customer's page, receipt and paper. `price` is the range of what it can come to."""

    cap: str
    event: str
    why: Sequence[str]
    price: str
    photographs: LinePictures | None


@dataclass(frozen=True, slots=True)
class ContingencyText:
    """The lines that may be charged beside the total. `words`: the most that all rows come to."""

    rows: Sequence[ContingencyRow]
    words: str


def contingency_answers(contingencies: Sequence[PricedContingency], e: int) -> list[ContingencyOut] | UnsetType:
    """The lines of a priced quote; absent where there are none, as in texts from before there were any."""
    return [_answer(contingency, e) for contingency in contingencies] or UNSET


def _answer(contingency: PricedContingency, e: int) -> ContingencyOut:
    kind: ContingencyKind = "labour" if contingency.skill else "part" if contingency.part else "text"
    quantity, unit_price = plain(contingency.quantity), unit_money(contingency.unit_price, e)
    return ContingencyOut(
        line=contingency.line,
        kind=kind,
        part=contingency.part,
        skill=contingency.skill,
        event=contingency.event,
        title=contingency.title,
        quantity=quantity,
        unit_price=unit_price,
        tax_class=contingency.tax_class,
        price=money(contingency.price, e),
        tax=money(contingency.tax, e),
        cap=contingency.cap,
        highest=money(contingency.highest, e),
        why=_why(kind, quantity, unit_price),
        override=OverrideOut(unit_price, contingency.because) if contingency.because else None,
    )


def _why(kind: ContingencyKind, quantity: str, unit_price: str) -> list[str]:
    if kind == "labour":
        return [say("customer.hours_at", hours=figure(quantity), rate=figure(unit_price))]
    return [say("customer.each", quantity=figure(quantity), price=figure(unit_price))] if quantity != "1" else []


def contingency_text(document: FrozenContent) -> ContingencyText | None:
    """The contingent lines of a frozen text in words; None where it has none."""
    lines = document["shown"].get("contingencies", [])
    if not lines:
        return None
    exponent, currency = document["shop"]["exponent"], document["shop"]["currency"]
    highest = sum((Decimal(line["highest"]) for line in lines), Decimal(0))
    words = say("customer.contingency.most", amount=figure(money(highest, exponent)), currency=currency)
    pictures = line_pictures(document)
    return ContingencyText([_row(line, exponent, pictures.get(line["line"])) for line in lines], words)


def _row(line: FrozenContent, exponent: int, photographs: LinePictures | None) -> ContingencyRow:
    facts = {"least": money(Decimal(0), exponent), "most": figure(line["highest"])}
    return ContingencyRow(
        cap=f"×{line['cap']}",
        event=line["event"],
        why=["; ".join([line["title"], *line["why"]]), _each(line)],
        price=say("customer.contingency.or" if line["cap"] == 1 else "customer.contingency.to", **facts),
        photographs=photographs,
    )


def _each(line: FrozenContent) -> str:
    return say("customer.contingency.each", price=figure(line["price"]), n=line["cap"])


def contingency_words(document: FrozenContent) -> list[str]:
    """A sentence for each line, as it is read out and recorded with the answer."""
    return [
        say("customer.contingency.words", event=line["event"], title=line["title"], each=_each(line))
        for line in document["shown"].get("contingencies", ())
    ]
