"""The deposit in words: on the draft, and on the customer's page, paper and receipt."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quotes.answers.figures import DepositOut
from quotes.calc.deposit import Deposit
from quotes.calc.forms import FrozenContent
from quotes.queries.frozen import asked_places
from shop.calc.quantity import money, plain
from shop.calc.rules import DepositTerms
from shop.words import say
from shop.words.figures import figure, number


@dataclass(frozen=True, slots=True)
class DepositRow:
    """The deposit of one of several prices; `words` name the price, and are empty where all have the same."""

    words: str
    amount: str


@dataclass(frozen=True, slots=True)
class CustomerDeposit:
    """The deposit as a customer reads it. `rows` has that of every price that is still open."""

    amount: str
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
        why=[words, *([say("quote.deposit_of.most")] if deposit.because == "total" else [])],
    )


def customer_deposit(document: FrozenContent) -> CustomerDeposit | None:
    """The deposit of a frozen text; None where it asks for none or was sent before there were any."""
    deposit = document["shown"].get("deposit")
    if not deposit or not Decimal(deposit["amount"]):
        return None
    return CustomerDeposit(
        amount=figure(deposit["amount"]),
        why=say(f"customer.deposit.{deposit['base']}", percent=figure(deposit["percent"])),
        rows=_rows(document),
        pay=document["rules"].get("payment", []),
    )


def _rows(document: FrozenContent) -> list[DepositRow]:
    prices = [document["possible"][place] for place in asked_places(document)] if document.get("possible") else []
    amounts = [figure(price["document"]["shown"]["deposit"]["amount"]) for price in prices]
    if len(set(amounts)) < 2:
        return [DepositRow("", figure(document["shown"]["deposit"]["amount"]))]
    return [DepositRow(price["words"], amount) for price, amount in zip(prices, amounts, strict=True)]
