"""Vector files: the calculations of quotes, from JSON strings to JSON strings."""

from typing import Any

from quotes.calc.ceiling import CeilingInput, CeilingRule, judge_ceiling
from quotes.calc.deposit import DepositInput, DepositRule, ask_deposit
from quotes.calc.discount import DiscountInput, split_discount
from quotes.calc.labour import (
    KitEntry,
    KitOperation,
    Labour,
    LabourInput,
    LabourOperation,
    Overlap,
    SharingRule,
    charge_labour,
)
from quotes.calc.landed import Band, DutyBase, ImportLine, LandedShipment, Markup, MarkupMode, Shipment, land
from quotes.calc.outside import OutsideTerms, price_outside
from quotes.calc.price_range import Possibilities, price_range
from shop.calc.document import ClassAmount
from shop.calc.quantity import at_least, fixed, plain
from shop.vectors.reading import flag, many, mapping, number, number_or_none, numbers, text, texts, whole
from shop.vectors.registry import Calculation
from shop.vectors.totals import read_tax


def labour(given: dict[str, Any]) -> dict[str, Any]:
    """Section 1."""
    exponent = whole(given, "exponent", "2")
    rates = mapping(given, "rates")
    return _labour_written(
        charge_labour(
            LabourInput(
                kits=tuple(_kit(kit) for kit in many(given, "kits")),
                operations=tuple(
                    _operation(code, operation) for code, operation in mapping(given, "operations").items()
                ),
                overlaps=tuple(
                    Overlap(text(pair, "a"), text(pair, "b"), number(pair, "hours")) for pair in many(given, "overlaps")
                ),
                condition_factor=number(given, "condition_factor", "1"),
                rates={skill: number(rates, skill) for skill in rates},
                exponent=exponent,
            )
        ),
        exponent,
    )


def _kit(given: dict[str, Any]) -> KitEntry:
    operations = (KitOperation(text(named, "code"), number(named, "hours")) for named in many(given, "operations"))
    return KitEntry(text(given, "code"), tuple(operations), number(given, "first_fit", "1"))


def _operation(code: str, given: dict[str, Any]) -> LabourOperation:
    return LabourOperation(
        code=code,
        skill=text(given, "skill"),
        sharing=SharingRule(text(given, "sharing", "once")),
        exposed=flag(given, "exposed"),
        includes=texts(given, "includes"),
    )


def _labour_written(result: Labour, exponent: int) -> dict[str, Any]:
    return {
        "lines": {line.code: fixed(line.hours, 1) for line in result.lines},
        "together_hours": at_least(result.together_hours, 1),
        "hours": fixed(result.hours, 1),
        "by_skill": {skill.skill: fixed(skill.hours, 1) for skill in result.skills},
        "price_by_skill": {skill.skill: fixed(skill.price, exponent) for skill in result.skills},
        "labour_total": fixed(result.total, exponent),
        "alone_hours": {kit.code: at_least(kit.alone_hours, 1) for kit in result.kits},
        "alone_charged": {kit.code: fixed(kit.alone_charged, 1) for kit in result.kits},
        "overlap_hours": at_least(result.overlap_hours, 1),
        "marginal_hours": {kit.code: fixed(kit.marginal_hours, 1) for kit in result.kits},
    }


def landed(given: dict[str, Any]) -> dict[str, Any]:
    """Section 4."""
    shipment = Shipment(
        rate=number(given, "rate"),
        lines=tuple(_import_line(line) for line in many(given, "lines")),
        markup=_markup(mapping(given, "markup")),
        freight_foreign=number(given, "freight_foreign", "0"),
        brokerage_local=number(given, "brokerage_local", "0"),
        duty_base=DutyBase(text(given, "duty_base", "goods")),
        recoverable_tax_rate=number(given, "recoverable_tax_rate", "0"),
        exponent=whole(given, "exponent", "2"),
    )
    return _landed_written(land(shipment), shipment.exponent)


def _import_line(given: dict[str, Any]) -> ImportLine:
    return ImportLine(
        id=text(given, "id"),
        quantity=number(given, "qty"),
        unit_foreign=number(given, "unit_foreign"),
        duty_rate=number(given, "duty_rate", "0"),
    )


def _markup(given: dict[str, Any]) -> Markup:
    bands = (Band(number_or_none(band, "up_to"), number(band, "x")) for band in many(given, "bands"))
    return Markup(MarkupMode(text(given, "mode")), tuple(bands))


def _landed_written(result: LandedShipment, exponent: int) -> dict[str, Any]:
    return {
        "landed": [fixed(line.landed, exponent) for line in result.lines],
        "landed_total": fixed(result.landed_total, exponent),
        "sell_unit": [fixed(line.sell_unit, exponent) for line in result.lines],
        "sell_total": fixed(result.sell_total, exponent),
        "gross_profit": fixed(result.gross_profit, exponent),
        "margin": None if result.margin is None else fixed(result.margin, 4),
        "markup_rate": None if result.markup_rate is None else fixed(result.markup_rate, 4),
        "recoverable_tax": fixed(result.recoverable_tax, exponent),
    }


def range_case(given: dict[str, Any]) -> dict[str, Any]:
    """Section 13; its step does not depend on `exponent`."""
    spoken = price_range(
        Possibilities(numbers(given, "totals"), numbers(given, "hours"), number(given, "if_it_happens", "0"))
    )
    return {name: plain(getattr(spoken, name)) for name in ("low", "high", "hours_low", "hours_high")}


def discount(given: dict[str, Any]) -> dict[str, Any]:
    """Section 14."""
    stated, exponent = mapping(given, "discount"), whole(given, "exponent", "2")
    split = split_discount(
        DiscountInput(
            lines=tuple(ClassAmount(text(line, "tax_class"), number(line, "net")) for line in many(given, "lines")),
            percent=number_or_none(stated, "percent"),
            amount=number_or_none(stated, "amount"),
            exponent=exponent,
        )
    )
    return {
        "discount": fixed(split.discount, exponent),
        "allowances": [
            {"tax_class": allowance.tax_class, "amount": fixed(allowance.amount, exponent)}
            for allowance in split.allowances
        ],
    }


def ceiling(given: dict[str, Any]) -> dict[str, Any]:
    """Section 15."""
    rule, exponent = mapping(given, "rule"), whole(given, "exponent", "2")
    figures = {name: number_or_none(rule, name) for name in ("percent", "floor", "cap", "maximum")}
    judged = judge_ceiling(
        CeilingInput(
            rule=CeilingRule(text(rule, "kind"), **figures),
            agreed=number(given, "agreed"),
            used=number(given, "used", "0"),
            extra=number(given, "extra", "0"),
            exponent=exponent,
        )
    )
    return {
        "ceiling": fixed(judged.ceiling, exponent),
        "left": fixed(judged.left, exponent),
        "status": judged.status,
    }


def deposit(given: dict[str, Any]) -> dict[str, Any]:
    """Section 16."""
    rule, exponent = mapping(given, "rule"), whole(given, "exponent", "2")
    asked = ask_deposit(
        DepositInput(
            rule=DepositRule(text(rule, "base"), number(rule, "percent"), flag(rule, "cover")),
            parts=number(given, "parts"),
            total=number(given, "total"),
            not_returnable=number(given, "not_returnable", "0"),
            exponent=exponent,
        )
    )
    return {"deposit": fixed(asked.deposit, exponent), "because": asked.because}


def outside(given: dict[str, Any]) -> dict[str, Any]:
    """Section 5 has its taxes; a class that none of them names is untaxed."""
    exponent = whole(given, "exponent", "2")
    terms = OutsideTerms(
        cost=number(given, "cost"),
        markup=number(given, "markup", "0"),
        handling=number(given, "handling", "0"),
        tax_class=text(given, "tax_class"),
    )
    taxes = tuple(read_tax(tax) for tax in many(given, "taxes"))
    found = price_outside(terms, taxes, flag(given, "prices_include_tax"), exponent)
    return {
        "before_tax": plain(found.before_tax),
        "rate": plain(found.rate),
        "price": fixed(found.price, exponent),
    }


CALCULATIONS: dict[str, Calculation] = {
    "labour": labour,
    "landed": landed,
    "range": range_case,
    "discount": discount,
    "ceiling": ceiling,
    "deposit": deposit,
    "outside": outside,
}
