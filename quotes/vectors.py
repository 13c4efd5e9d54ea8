"""Vector files: the calculations of quotes, from JSON strings to JSON strings."""

from typing import Any, cast

from quotes.calc.account import AccountAmount, RowKind, sum_account
from quotes.calc.ceiling import CeilingInput, CeilingRule, judge_ceiling
from quotes.calc.charge import OpenedPacks, charge_need, choose_way
from quotes.calc.contingency import TaxTerms, charge_happened, highest_charge, price_once
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
from quotes.calc.supplied import FittingWork, surcharge_supplied
from quotes.calc.worked import worked_share
from shop.calc.document import ClassAmount, Rounding, Tax
from shop.calc.quantity import at_least, fixed, plain
from shop.vectors.reading import flag, many, mapping, number, number_or_none, numbers, text, texts, whole
from shop.vectors.registry import Calculation
from shop.vectors.totals import read_tax


def labour(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of labour (section 1)."""
    exponent = whole(case, "exponent", "2")
    rates = mapping(case, "rates")
    return _labour_written(
        charge_labour(
            LabourInput(
                kits=tuple(_kit(kit) for kit in many(case, "kits")),
                operations=tuple(
                    _operation(code, operation) for code, operation in mapping(case, "operations").items()
                ),
                overlaps=tuple(
                    Overlap(text(pair, "a"), text(pair, "b"), number(pair, "hours")) for pair in many(case, "overlaps")
                ),
                condition_factor=number(case, "condition_factor", "1"),
                rates={skill: number(rates, skill) for skill in rates},
                exponent=exponent,
            )
        ),
        exponent,
    )


def _kit(case: dict[str, Any]) -> KitEntry:
    operations = (KitOperation(text(named, "code"), number(named, "hours")) for named in many(case, "operations"))
    return KitEntry(text(case, "code"), tuple(operations), number(case, "first_fit", "1"))


def _operation(code: str, case: dict[str, Any]) -> LabourOperation:
    return LabourOperation(
        code=code,
        skill=text(case, "skill"),
        sharing=SharingRule(text(case, "sharing", "once")),
        exposed=flag(case, "exposed"),
        includes=texts(case, "includes"),
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


def landed(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of landed (section 4)."""
    shipment = Shipment(
        rate=number(case, "rate"),
        lines=tuple(_import_line(line) for line in many(case, "lines")),
        markup=_markup(mapping(case, "markup")),
        freight_foreign=number(case, "freight_foreign", "0"),
        brokerage_local=number(case, "brokerage_local", "0"),
        duty_base=DutyBase(text(case, "duty_base", "goods")),
        recoverable_tax_rate=number(case, "recoverable_tax_rate", "0"),
        exponent=whole(case, "exponent", "2"),
    )
    return _landed_written(land(shipment), shipment.exponent)


def _import_line(case: dict[str, Any]) -> ImportLine:
    return ImportLine(
        id=text(case, "id"),
        quantity=number(case, "qty"),
        unit_foreign=number(case, "unit_foreign"),
        duty_rate=number(case, "duty_rate", "0"),
    )


def _markup(case: dict[str, Any]) -> Markup:
    bands = (Band(number_or_none(band, "up_to"), number(band, "x")) for band in many(case, "bands"))
    return Markup(MarkupMode(text(case, "mode")), tuple(bands))


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


def range_case(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of range (section 13). Its step does not depend on `exponent`."""
    spoken = price_range(
        Possibilities(numbers(case, "totals"), numbers(case, "hours"), number(case, "if_it_happens", "0"))
    )
    return {name: plain(getattr(spoken, name)) for name in ("low", "high", "hours_low", "hours_high")}


def discount(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of discount (section 14)."""
    stated, exponent = mapping(case, "discount"), whole(case, "exponent", "2")
    split = split_discount(
        DiscountInput(
            lines=tuple(ClassAmount(text(line, "tax_class"), number(line, "net")) for line in many(case, "lines")),
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


def ceiling(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of ceiling (section 15)."""
    rule, exponent = mapping(case, "rule"), whole(case, "exponent", "2")
    figures = {name: number_or_none(rule, name) for name in ("percent", "floor", "cap", "maximum")}
    judged = judge_ceiling(
        CeilingInput(
            rule=CeilingRule(text(rule, "kind"), **figures),
            agreed=number(case, "agreed"),
            used=number(case, "used", "0"),
            extra=number(case, "extra", "0"),
            exponent=exponent,
        )
    )
    return {
        "ceiling": fixed(judged.ceiling, exponent),
        "left": fixed(judged.left, exponent),
        "status": judged.status,
    }


def deposit(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of deposit (section 16)."""
    rule, exponent = mapping(case, "rule"), whole(case, "exponent", "2")
    result = ask_deposit(
        DepositInput(
            rule=DepositRule(text(rule, "base"), number(rule, "percent"), flag(rule, "cover")),
            parts=number(case, "parts"),
            total=number(case, "total"),
            not_returnable=number(case, "not_returnable", "0"),
            exponent=exponent,
        )
    )
    return {"deposit": fixed(result.deposit, exponent), "because": result.because}


def outside(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of outside, with the taxes of section 5. A class that no tax names is untaxed."""
    exponent = whole(case, "exponent", "2")
    terms = OutsideTerms(
        cost=number(case, "cost"),
        markup=number(case, "markup", "0"),
        handling=number(case, "handling", "0"),
        tax_class=text(case, "tax_class"),
        times=whole(case, "times", "1"),
    )
    taxes = tuple(read_tax(tax) for tax in many(case, "taxes"))
    result = price_outside(terms, taxes, flag(case, "prices_include_tax"), exponent)
    return {
        "before_tax": plain(result.before_tax),
        "rate": plain(result.rate),
        "price": fixed(result.price, exponent),
    }


def contingency(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of contingency; every tax is on the one class of the line."""
    exponent, cap = whole(case, "exponent", "2"), whole(case, "cap")
    taxes = tuple(Tax(text(tax, "code"), number(tax, "rate"), ("part",)) for tax in many(case, "taxes"))
    terms = TaxTerms(taxes, Rounding.DOCUMENT, flag(case, "prices_include_tax"), exponent)
    once = price_once(number(case, "quantity"), number(case, "unit_price"), "part", terms)
    highest = highest_charge(once, cap)
    charge = charge_happened([int(count) for count in numbers(case, "counts")], cap, once)
    return {
        "price": fixed(once.amount, exponent),
        "price_tax": fixed(once.tax, exponent),
        "highest": fixed(highest, exponent),
        "charged": str(charge.charged),
        "amount": fixed(charge.amount, exponent),
        "tax": fixed(charge.tax, exponent),
        "rest": str(charge.rest),
        "over": str(charge.over),
    }


def account(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of account."""
    exponent = whole(case, "exponent", "2")
    rows = tuple(
        AccountAmount(cast(RowKind, text(row, "kind")), number(row, "amount"), number(row, "tax", "0"))
        for row in many(case, "rows")
    )
    sums = sum_account(rows, numbers(case, "payments"), exponent)
    figures = {name: fixed(getattr(sums, name), exponent) for name in ("total", "tax", "received", "due")}
    return {**figures, "settled": sums.settled}


def worked(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of worked: the share of a price."""
    exponent = whole(case, "exponent", "2")
    share = worked_share(number(case, "price"), number(case, "agreed"), number(case, "worked"), exponent)
    return {"share": fixed(share, exponent)}


def charge(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of charge: the way, its reason, price and cost."""
    exponent, packs = whole(case, "exponent", "2"), mapping(case, "packs")
    rule, chosen = (text(case, name) if name in case else None for name in ("rule", "chosen"))
    way = choose_way(texts(case, "stated"), rule, chosen)
    opened = OpenedPacks(**{name: number(packs, name) for name in ("price", "cost", "size", "quantity")})
    charged = charge_need(way.way, opened, exponent)
    return {
        "way": way.way,
        "because": way.because,
        "price": fixed(charged.price, exponent),
        "cost": fixed(charged.cost, exponent),
    }


def supplied(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of supplied."""
    exponent, rates = whole(case, "exponent", "2"), mapping(case, "rates")
    surcharges = surcharge_supplied(
        [FittingWork(text(work, "code"), text(work, "skill"), number(work, "hours")) for work in many(case, "work")],
        texts(case, "fitted_by"),
        number(case, "share"),
        {skill: number(rates, skill) for skill in rates},
        exponent,
    )
    return {
        "surcharges": [
            {
                "skill": surcharge.skill,
                "fitting_hours": fixed(surcharge.fitting_hours, 1),
                "hours": fixed(surcharge.hours, 1),
                "price": fixed(surcharge.price, exponent),
            }
            for surcharge in surcharges
        ]
    }


CALCULATIONS: dict[str, Calculation] = {
    "labour": labour,
    "landed": landed,
    "range": range_case,
    "discount": discount,
    "ceiling": ceiling,
    "deposit": deposit,
    "outside": outside,
    "account": account,
    "worked": worked,
    "contingency": contingency,
    "charge": charge,
    "supplied": supplied,
}
