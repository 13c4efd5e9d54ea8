"""No calculation makes a float, and every figure of a quote is exact and has the currency's decimal places."""

import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from decimal import Decimal
from fractions import Fraction
from types import FrameType
from typing import Any

import pytest
from django.conf import settings
from hypothesis import given
from hypothesis import settings as some

from quotes.calc.pricing import margin_rate, price_quote, savings
from quotes.calc.quote_input import QuoteInput
from shop.calc.money import rounded
from shop.vectors.registry import calculations_of
from shop.vectors.runner import check_case
from tests.calc.drafts import drafts
from tests.calc.test_vectors import CASES

APPS = ("shop", "kitting", "quotes")
CALCULATIONS = calculations_of(APPS)
CALC = tuple(str(settings.BASE_DIR / app / "calc") for app in APPS)
MOST = 25  # drafts are large, and each is priced again for each kit
PLAIN = (str, int, Decimal, Fraction, type(None))


def figures_of(value: Any, where: str = "") -> Iterator[tuple[str, Any]]:
    """(place, figure or text) of every value inside, at any depth."""
    if is_dataclass(value):
        for member in fields(value):
            yield from figures_of(getattr(value, member.name), f"{where}.{member.name}")
    elif isinstance(value, Mapping):
        for key, member in value.items():
            yield from figures_of(member, f"{where}[{key}]")
    elif isinstance(value, tuple | list | set | frozenset):
        for at, member in enumerate(value):
            yield from figures_of(member, f"{where}[{at}]")
    else:
        yield where, value


@contextmanager
def floats_noticed() -> Iterator[list[str]]:
    """Collects every float that a function in a `calc/` folder stores in a variable or returns."""
    floats: list[str] = []

    def look(frame: FrameType, event: str, gives: Any) -> None:
        if event != "return" or not frame.f_code.co_filename.startswith(CALC):
            return
        for name, value in (("gives", gives), *frame.f_locals.items()):
            if isinstance(value, float) or type(value) in (tuple, list) and any(isinstance(x, float) for x in value):
                floats.append(f"{frame.f_code.co_filename}: {frame.f_code.co_name}: {name} = {value!r}")

    before = sys.getprofile()
    sys.setprofile(look)
    try:
        yield floats
    finally:
        sys.setprofile(before)


@pytest.mark.parametrize("calculation", sorted({case.calculation for case in CASES}))
def test_no_worked_case_makes_a_float_on_its_way(calculation: str) -> None:
    for case in (case for case in CASES if case.calculation == calculation):
        with floats_noticed() as floats:
            failures = check_case(case, CALCULATIONS)
        assert (case.id, failures, floats) == (case.id, (), [])


def test_a_float_would_be_noticed() -> None:
    code = compile("def share(a, b):\n  part = a / b\n  return str(part)\nshare(1, 3)", CALC[0] + "/planted.py", "exec")
    with floats_noticed() as floats:
        exec(code, {})
    assert len(floats) == 1 and "part = 0.333" in floats[0]


@some(max_examples=MOST)
@given(drafts())
def test_every_figure_of_a_priced_draft_is_exact(draft: QuoteInput) -> None:
    with floats_noticed() as floats:
        priced = price_quote(draft)
        saved = savings(draft, priced)
    assert floats == []
    kinds = {type(value) for _, value in figures_of((priced, saved))}
    assert all(issubclass(kind, PLAIN) for kind in kinds), kinds


@some(max_examples=MOST)
@given(drafts())
def test_every_amount_of_a_priced_draft_has_the_decimals_of_the_currency(draft: QuoteInput) -> None:
    priced = price_quote(draft)
    amounts = {where: value for where, value in figures_of(priced) if is_amount(where) and value is not None}
    amounts |= {f"saves{saving.line}": saving.amount for saving in savings(draft, priced)}
    finer = {where: value for where, value in amounts.items() if rounded(value, draft.exponent) != value}
    assert finer == {}
    assert not any(value.is_signed() and value == 0 for value in amounts.values())


AMOUNTS = ("price", "cost", "labour_total", "net", "tax_total", "gross", "due", "supplies", "taxable")


def is_amount(where: str) -> bool:
    """True for prices, costs and totals; not for rates, unit prices and the facts of reasons."""
    cited = (".reasons", ".steps", ".notices", ".document", ".landed", ".buying")
    name = where.rpartition(".")[2]
    named = name in AMOUNTS or (name == "amount" and where.startswith(".totals"))
    return named and not any(part in where for part in cited)


@some(max_examples=MOST)
@given(drafts())
def test_the_parts_of_a_priced_draft_add_up_to_it(draft: QuoteInput) -> None:
    priced, totals = price_quote(draft), price_quote(draft).totals
    shared = sum((operation.price for operation in priced.operations), Decimal(0))
    assert shared == priced.labour_total == sum((skill.price for skill in priced.skills), Decimal(0))
    groups = (priced.kits, priced.needs, priced.outside, priced.extras, priced.fees)
    stated = sum((part.price for group in groups for part in group), priced.labour_total) + totals.supplies
    assert stated == (totals.gross if draft.rules.prices_include_tax else totals.net)
    assert isinstance(margin_rate(totals.net, priced.cost), Decimal | None)
