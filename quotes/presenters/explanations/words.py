"""The parts of an explanation, and its figures in words: with units, signs and separators."""

from collections.abc import Iterable
from decimal import Decimal

from quotes.answers.how import HowOut
from quotes.calc.quote_input import FigureOverride
from shop.answers.explained import HowStepOut
from shop.calc.quantity import money, plain, unit_money
from shop.words import say
from shop.words.figures import figure, number, tenths


def explained(key: str, title: str, rule: Iterable[str], steps: Iterable[HowStepOut], result: str) -> HowOut:
    """The explanation of one figure; `rule` are sentences."""
    return HowOut(title=title, rule=list(rule), steps=list(steps), result=result, key=key)


def sentences(*codes: str) -> list[str]:
    return [say(f"how.rule.{code}") for code in codes]


def step(code: str, figure: str, **facts: object) -> HowStepOut:
    return HowStepOut(say(f"how.step.{code}", **facts), figure)


def cash(amount: Decimal, exponent: int) -> str:
    """'1,234.50': the currency's decimals, with separators."""
    return figure(money(amount, exponent))


def unit_cash(amount: Decimal, exponent: int) -> str:
    return figure(unit_money(amount, exponent))


def hour(amount: Decimal) -> str:
    """The hours, with all decimals that are not zero: '2.64 h'."""
    decimals = plain(amount).partition(".")[2]
    return say("how.hours", n=number(amount) if len(decimals) > 1 else tenths(amount))


def amount_of(quantity: Decimal, unit: str) -> str:
    return say("how.quantity", quantity=number(quantity), unit=unit)


def percent(share: Decimal) -> str:
    return number(share * 100)


def less(amount: str) -> str:
    return say("how.less", figure=amount)


def put_in_place(override: FigureOverride | None, computed: str, own: str) -> list[HowStepOut]:
    """The last steps, for a person's figure that replaces the one worked out."""
    if override is None:
        return []
    return [step("computed", computed), step("own", own, because=override.because)]
