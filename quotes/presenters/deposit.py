"""The deposit in words: on the draft, and on the customer's page, paper and receipt."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quotes.answers.figures import DepositOut, ReceivedDepositOut
from quotes.calc.deposit import Deposit
from quotes.calc.deposit_received import receive_deposit
from quotes.calc.forms import FrozenContent
from quotes.models import Quote
from quotes.queries.account import deposit_of
from quotes.queries.frozen import asked_places
from shop.calc.quantity import money, plain
from shop.calc.rules import DepositTerms
from shop.queries.payments import payment_days, received
from shop.words import say
from shop.words.figures import figure, number


@dataclass(frozen=True, slots=True)
class DepositRow:
    """The deposit of one of several prices; `words` name the price, and are empty where all have the same."""

    words: str
    amount: str


@dataclass(frozen=True, slots=True)
class CustomerDeposit:
    """The deposit as a customer reads it. `rows` has that of every price that is still open.

    `between` names the lowest and the highest of several.
    """

    amount: str
    between: str
    why: str
    rows: Sequence[DepositRow]
    pay: Sequence[str]


def deposit_answer(terms: DepositTerms | None, deposit: Deposit | None, e: int) -> DepositOut | None:
    """The deposit of a priced quote, with its percentage and base in words; None without one."""
    if terms is None or deposit is None:
        return None
    percent, base = terms.share * 100, deposit.steps[0].named["of"]
    assert isinstance(base, Decimal)
    words = say(f"quote.deposit_of.{terms.base}", percent=number(percent), of=figure(money(base, e)))
    return DepositOut(
        base="total" if terms.base == "total" else "parts",
        percent=plain(percent),
        amount=money(deposit.deposit, e),
        why=[*([words] if terms.share else []), *_decided(deposit)],
        because=deposit.because,
        covers=terms.cover,
    )


def _decided(deposit: Deposit) -> list[str]:
    """The words on the rules beyond the percentage that decided the deposit."""
    covered = any(step.code == "cover" for step in deposit.steps)
    return [
        *([say("quote.deposit_of.cover")] if covered else []),
        *([say("quote.deposit_of.most")] if deposit.because == "total" else []),
    ]


def received_answer(document: FrozenContent, quote: Quote) -> ReceivedDepositOut | None:
    """The part of its deposit that an accepted quote's job has received; None for a draft."""
    deposit = deposit_of(document) if document and quote.job else None
    if deposit is None or quote.job is None:
        return None
    part = receive_deposit(deposit, payment_days(quote.job))
    if part is None:
        return None
    return ReceivedDepositOut(money(part.amount, quote.shop.exponent), part.day, part.whole)


def deposit_words(deposit: Decimal, paid: Decimal, e: int) -> str:
    """'received', 'not received yet', '1,610.10 still to come'"""
    if paid >= deposit:
        return say("account.deposit.received")
    if paid <= 0:
        return say("account.deposit.awaited")
    return say("account.deposit.part", missing=figure(money(deposit - paid, e)))


def received_words(document: FrozenContent, quote: Quote) -> str:
    """The words for the part of an accepted text's deposit that has come; empty where it asks for none."""
    deposit = deposit_of(document)
    if deposit is None or quote.job is None:
        return ""
    return deposit_words(deposit, received(quote.job), quote.shop.exponent)


def customer_deposit(document: FrozenContent) -> CustomerDeposit | None:
    """The deposit of a frozen text; None where it asks for none or was sent before there were any."""
    deposit = document["shown"].get("deposit")
    if not deposit or not Decimal(deposit["amount"]):
        return None
    return CustomerDeposit(
        amount=figure(deposit["amount"]),
        between=_between(document),
        why=_why(deposit),
        rows=_rows(document),
        pay=document["rules"].get("payment", []),
    )


def _why(deposit: FrozenContent) -> str:
    """The share that it is, or what it covers. Older texts do not say what decided it: the share did."""
    if deposit.get("because") == "cover":
        return say("customer.deposit.cover")
    if deposit.get("because") == "total" and deposit["percent"] == "0":
        return say("customer.deposit.whole")
    return say(f"customer.deposit.{deposit['base']}", percent=figure(deposit["percent"]))


def _rows(document: FrozenContent) -> list[DepositRow]:
    prices = _open_prices(document)
    amounts = [figure(amount) for _, amount in prices]
    if len(set(amounts)) < 2:
        return [DepositRow("", figure(document["shown"]["deposit"]["amount"]))]
    return [DepositRow(words, amount) for (words, _), amount in zip(prices, amounts, strict=True)]


def _between(document: FrozenContent) -> str:
    amounts = sorted({Decimal(amount) for _, amount in _open_prices(document)})
    if len(amounts) < 2:
        return ""
    least, most = (figure(money(amount, document["shop"]["exponent"])) for amount in (amounts[0], amounts[-1]))
    return say("customer.deposit.between", least=least, most=most, currency=document["shop"]["currency"])


def _open_prices(document: FrozenContent) -> list[tuple[str, str]]:
    """(the words of a price that is still open, its deposit); empty where there is one price."""
    if not document.get("possible"):
        return []
    prices = (document["possible"][place] for place in asked_places(document))
    return [(price["words"], price["document"]["shown"]["deposit"]["amount"]) for price in prices]
