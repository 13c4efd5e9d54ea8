"""The sheets of a rules workbook, and the single rules by the names that people give them."""

from dataclasses import replace
from decimal import Decimal

from shop.calc.rule_fields import has_letter
from shop.calc.rules import BEGIN_EARLY, MOST_TECHNICIANS, MOST_WITHDRAWAL_DAYS, OPTIONAL, REQUIRED, fee_base
from shop.tables.columns import Field, Table, folded
from shop.tables.conditions import attribute_name
from shop.tables.dates import clock, day
from shop.tables.numbers import number, share, whole
from shop.tables.prices import MONEY
from shop.tables.sheets import Cell
from shop.tables.values import (
    CellError,
    Reader,
    Value,
    article,
    as_written,
    listed,
    one_of,
    plain_text,
    text,
    yes_or_no,
)


class RuleName:
    """A reader of the name of a rule, in folded form. A name that it does not know is reported by the plan."""

    def __call__(self, cell: Cell, decimal: str) -> Value:
        return Value(folded(plain_text(cell)))

    @property
    def words(self) -> dict[str, str]:
        return {word: path for word, (path, _) in NAMED.items()}


def code(cell: Cell, decimal: str) -> Value:
    """Reads a code in folded form."""
    return Value(str(text(20)(cell, decimal).value).casefold())


def skill(cell: Cell, decimal: str) -> Value:
    """Reads a skill in folded form. A figure belongs into another column."""
    value = code(cell, decimal)
    if not has_letter(str(value.value)):
        raise CellError("not_a_skill")
    return value


def per_what(cell: Cell, decimal: str) -> Value:
    """Reads the base of a fee: a quote, litres drained, or the litres of a family, whose name stays as written."""
    value = text(40)(cell, decimal)
    return replace(value, value=fee_base(str(value.value)))


def circuit_name(cell: Cell, decimal: str) -> Value:
    """Reads a circuit in the form of capacities and needs: "Coolant" is "coolant"."""
    value = text(40)(cell, decimal)
    return replace(value, value=attribute_name(str(value.value)))


def factor(cell: Cell, decimal: str) -> Value:
    """Reads a factor of 1 or more: a smaller one would reduce hours."""
    value = number(scale=6)(cell, decimal)
    if isinstance(value.value, Decimal) and value.value < 1:
        raise CellError("factor_below_one")
    return value


def currency_code(cell: Cell, decimal: str) -> Value:
    """Reads a currency code of three letters."""
    written = plain_text(cell).upper()
    if len(written) != 3 or not (written.isascii() and written.isalpha()):
        raise CellError("not_a_currency")
    return Value(written)


DAY_WORDS = {
    **dict.fromkeys(("mon", "monday"), "mon"),
    **dict.fromkeys(("tue", "tues", "tuesday"), "tue"),
    **dict.fromkeys(("wed", "wednesday"), "wed"),
    **dict.fromkeys(("thu", "thur", "thurs", "thursday"), "thu"),
    **dict.fromkeys(("fri", "friday"), "fri"),
    **dict.fromkeys(("sat", "saturday"), "sat"),
    **dict.fromkeys(("sun", "sunday"), "sun"),
}
WORD_KINDS = one_of(
    {
        "standing": "standing",
        "caution": "caution",
        "cautions": "caution",
        "consent": REQUIRED,
        "required consent": REQUIRED,
        "optional consent": OPTIONAL,
        "consent to begin within withdrawal": BEGIN_EARLY,
        "begin within withdrawal": BEGIN_EARLY,
        "withdrawal": "withdrawal",
        "not included": "not_included",
        "bay": "bay",
        "bring": "bring",
        "please bring": "bring",
        "job page": "bay",
        "payment": "payment",
        "supplies": "supplies",
        "shop supplies": "supplies",
        "how to pay": "payment",
    }
)
CHARGE_WORDS = {
    **dict.fromkeys(("pack", "packs", "as packs", "whole packs"), "pack"),
    **dict.fromkeys(("used", "as used"), "used"),
    **dict.fromkeys(("supplies", "shop supplies", "within shop supplies", "covered by shop supplies"), "supplies"),
}
"""The words for the ways of charging a consumable, in rules and in the needs of a kit."""


TABLES = (
    Table(
        "rules",
        (
            Field("rule", ("rule", "field", "setting", "house rule"), RuleName(), True, True),
            Field("value", ("value", "is"), as_written, True),
        ),
        ("rules", "house rules"),
    ),
    Table(
        "labour rates",
        (
            Field("skill", ("skill", "trade"), skill, True, True),
            Field("rate", ("rate", "rate an hour", "rate per hour", "labour rate"), MONEY, True, True),
            Field("cost", ("cost", "cost an hour", "cost per hour"), MONEY),
            Field("tax_class", ("tax class", "taxed as"), text(20)),
        ),
        ("labour rates", "rates"),
    ),
    Table(
        "bands",
        (
            Field("up_to", ("up to", "to", "unit cost up to"), MONEY, True),
            Field("x", ("x", "times", "multiplier", "sells at"), number(scale=4), True, True),
        ),
        ("bands", "markup", "price bands"),
    ),
    Table(
        "taxes",
        (
            Field("code", ("code", "tax"), article(20), True, True),
            Field("title", ("title", "name"), text(80)),
            Field("rate", ("rate", "tax rate"), share(), True, True),
            Field("classes", ("classes", "tax classes", "on"), listed(), True, True),
            Field("on_top_of", ("on top of",), listed()),
        ),
        ("taxes", "tax"),
    ),
    Table(
        "fees",
        (
            Field("code", ("code", "fee"), article(20), True, True),
            Field("title", ("title", "name"), text(120), True, True),
            Field("amount", ("amount", "price"), MONEY, True, True),
            Field("tax_class", ("tax class", "taxed as"), text(20), True, True),
            Field("per", ("per",), per_what),
            Field("fluid", ("fluid", "of", "fluid drained"), circuit_name),
        ),
        ("fees", "fee"),
    ),
    Table(
        "words",
        (
            Field("kind", ("kind", "sort"), WORD_KINDS, True, True),
            Field("code", ("code",), article(40)),
            Field("text", ("text", "words", "wording"), text(600), True, True),
            Field("without", ("without", "without it"), text(600)),
            Field("applies_to", ("applies to", "only with", "only for"), listed()),
        ),
        ("words", "wording"),
    ),
    Table(
        "conditions",
        (
            Field("condition", ("condition", "code"), code, True, True),
            Field("factor", ("factor", "times"), factor, True, True),
        ),
        ("conditions", "condition factors"),
    ),
    Table(
        "consumables",
        (
            Field("family", ("family", "consumable", "group"), text(40), True, True),
            Field("charge", ("charge", "charged", "charged as"), one_of(CHARGE_WORDS), True, True),
        ),
        ("consumables", "consumable", "charging"),
    ),
    Table(
        "calendar",
        (
            Field("day", ("day", "weekday"), one_of(DAY_WORDS), True, True),
            Field("opens", ("opens", "from", "open"), clock, True, True),
            Field("closes", ("closes", "to", "until", "close"), clock, True, True),
            Field("valid_from", ("valid from", "in force from"), day),
        ),
        ("calendar", "opening hours", "hours"),
    ),
    Table(
        "closed days",
        (
            Field("date", ("date", "day", "closed on"), day, True, True),
            Field("why", ("why", "reason", "what"), text(120), True),
        ),
        ("closed days", "closed", "holidays"),
    ),
    Table(
        "exchange rates",
        (
            Field("currency", ("currency",), currency_code, True, True),
            Field("valid_from", ("valid from", "from", "date"), day, True, True),
            Field("rate", ("rate", "exchange rate"), number(scale=6, zero=False), True, True),
        ),
        ("exchange rates", "exchange"),
    ),
)

ROUNDING = one_of({"document": "document", "line": "line", "per document": "document", "per line": "line"})
PRICE_STEP = one_of({"0.05": "0.05", "0.10": "0.1", "0.1": "0.1", "1": "1", "1.00": "1"})
MODES = one_of({"graduated": "graduated", "floored": "floored"})
DUTY = one_of({"goods": "goods", "goods and freight": "goods_and_freight"})
DEPOSIT_BASE = one_of({"parts": "parts", "kits and parts": "parts", "total": "total"})
OFFERS = one_of({"quotation": "quotation", "quotations": "quotation", "estimate": "estimate", "estimates": "estimate"})
CEILINGS = one_of(
    {
        "none": "none",
        "percent": "percent",
        "percentage": "percent",
        "percent with cap": "percent_capped",
        "percent with floor and cap": "banded",
        "maximum": "maximum",
        "amount": "amount",
    }
)

NAMED: dict[str, tuple[str, Reader]] = {
    word: (path, read)
    for words, path, read in (
        (("valid from", "from"), "valid_from", day),
        (("prices include tax", "tax included"), "prices_include_tax", yes_or_no),
        (("rounding", "tax rounding"), "rounding", ROUNDING),
        (("markup mode", "markup"), "markup.mode", MODES),
        (("price rounding", "prices rounded up to"), "markup.step", PRICE_STEP),
        (("supplies rate", "shop supplies rate"), "supplies.rate", share()),
        (("supplies basis", "shop supplies basis"), "supplies.basis", listed()),
        (("supplies cap", "shop supplies cap"), "supplies.cap", MONEY),
        (("supplies tax class", "shop supplies tax class"), "supplies.tax_class", text(20)),
        (("supplies amount stated", "shop supplies amount stated"), "supplies.stated", yes_or_no),
        (("quotes are", "a quote is"), "offer", OFFERS),
        (("validity days", "validity", "valid days"), "validity_days", whole(units=("d",))),
        (("currency hold days", "exchange rate held days"), "currency_days", whole(units=("d",))),
        (("exchange rate days", "rate stale days"), "rate_stale_days", whole(units=("d",))),
        (("first fit factor", "first fit"), "first_fit_factor", factor),
        (("minimum charge hours", "minimum charge", "minimum hours"), "minimum.hours", number(scale=1, units=("h",))),
        (("customer supplied parts share", "surcharge on customer supplied parts"), "supplied_share", share()),
        (("margin floor", "least margin"), "margin_floor", share()),
        (("recoverable tax rate", "recoverable tax"), "recoverable_tax_rate", share()),
        (("duty base", "duty on"), "duty_base", DUTY),
        (("coolant drained share", "drained share"), "coolant.drained_share", share()),
        (("coolant residual", "coolant residual concentration"), "coolant.residual", share()),
        (("coolant target", "coolant target concentration"), "coolant.target", share()),
        (("coolant premix", "premix concentration"), "coolant.premix", share()),
        (("coolant order allowance", "order allowance"), "coolant.order_allowance", share()),
        (("coolant top up", "top up"), "coolant.top_up", number(scale=3, units=("L",))),
        (("bead waste", "bead waste factor"), "bead_waste", factor),
        (
            ("withdrawal days", "withdrawal period", "withdrawal period days"),
            "withdrawal.days",
            whole(units=("d",), most=MOST_WITHDRAWAL_DAYS),
        ),
        (("wheel check after", "wheel re check after", "wheels checked after"), "wheel_check", text(40)),
        (("retention years", "retention"), "retention_years", whole(units=("y",))),
        (("retention months", "records kept months"), "retention_months", whole()),
        (("imported files kept months", "files kept months"), "import_months", whole()),
        (("deposit of parts", "deposit", "deposit share"), "deposit_share", share()),
        (("deposit on", "deposit base"), "deposit.base", DEPOSIT_BASE),
        (("deposit covers what cannot be sent back", "deposit cover"), "deposit.cover", yes_or_no),
        (("deposit releases orders", "orders with the deposit"), "deposit.releases", yes_or_no),
        (("ceiling kind", "ceiling"), "ceiling.kind", CEILINGS),
        (("ceiling percent", "ceiling share"), "ceiling.share", share()),
        (("ceiling amount",), "ceiling.amount", MONEY),
        (("ceiling floor",), "ceiling.floor", MONEY),
        (("ceiling cap",), "ceiling.cap", MONEY),
        (("ceiling maximum",), "ceiling.maximum", MONEY),
        (("technicians",), "technicians", whole(most=MOST_TECHNICIANS)),
        (("technician efficiency", "efficiency"), "efficiency", number(scale=4, zero=False)),
    )
    for word in words
}
