"""The price rules of one day. `Rules` is the only reader of the JSON that a rule set stores.

Rates, ceilings and wording differ between places and change: they are the workshop's own dated settings.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from shop.calc.document import Rounding, Supplies, Tax
from shop.calc.errors import CalculationError
from shop.calc.rules_reader import MISSING, RulesReader

ONE = Decimal(1)
REQUIRED, OPTIONAL, BEGIN_EARLY = "required", "optional", "begin_within_withdrawal"
DRAINED = "litre drained"
FEE_BASES = {"quote": "quote", "a quote": "quote", DRAINED: DRAINED, "per litre drained": DRAINED}
MOST_WITHDRAWAL_DAYS = 90
MARKUP_MODES = ("graduated", "floored")
OFFERS = ("quotation", "estimate")
DEPOSIT_BASES = ("parts", "total")
PRICE_STEPS = (Decimal("0.05"), Decimal("0.1"), ONE)
UNTAXED = "untaxed"  # the tax class of lines deliberately sold without tax, unless the rules name another
MOST_HOURS = 999  # of one piece of work: more is a typing mistake, and would be planned day by day
MOST_TECHNICIANS = 9  # at one vehicle
CHARGES = ("pack", "used", "supplies")  # how a consumable is charged, the fullest way first
CEILING_NAMES = ("floor", "cap", "maximum")
CEILING_FIGURES: dict[str, tuple[str, ...]] = {
    "percent": (),
    "percent_capped": ("cap",),
    "banded": ("floor", "cap"),
    "maximum": ("maximum",),
    "amount": (),
}
"""Maps each kind of ceiling to those of its own figures that a rule set has to have."""


@dataclass(frozen=True, slots=True)
class MarkupBand:
    """The multiplier for unit costs up to and including `up_to` (None: no upper end)."""

    up_to: Decimal | None
    multiplier: Decimal


@dataclass(frozen=True, slots=True)
class Fee:
    """A fee. `per` is "quote", `DRAINED` (per litre drained of `fluid`), or a consumable family (per litre used).

    `fluid` is the name of a capacity of the vehicle, such as "coolant"; empty unless `per` is `DRAINED`.
    """

    code: str
    title: str
    amount: Decimal
    tax_class: str
    per: str
    fluid: str = ""


@dataclass(frozen=True, slots=True)
class NamedTax:
    """A tax with the title that customers read."""

    title: str
    tax: Tax


@dataclass(frozen=True, slots=True)
class CoolantRule:
    """Assumptions about a coolant circuit until it is drained: shares of its capacity, and concentrations."""

    drained_share: Decimal
    residual: Decimal
    target: Decimal
    premix: Decimal
    order_allowance: Decimal
    top_up: Decimal  # litres


@dataclass(frozen=True, slots=True)
class CustomerCaution:
    """A sentence for the customer.

    `applies_to` holds case-folded names of kits, operations or skills; empty: always.
    """

    text: str
    applies_to: frozenset[str] = frozenset()

    def concerns(self, sold: Iterable[str]) -> bool:
        """True if the caution belongs on a quote with these kits, operations and skills."""
        return not self.applies_to or any(name.casefold() in self.applies_to for name in sold)


@dataclass(frozen=True, slots=True)
class Consent:
    """A consent of the customer. `without` says what happens if an optional one is not given."""

    code: str
    text: str
    kind: str = REQUIRED
    without: str = ""


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """The right of withdrawal in the workshop's wording, for `days` from the day after acceptance."""

    days: int
    text: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ceiling:
    """The limit of extra work without asking the customer (calculation named ceiling).

    `kind` is none, percent (`share` of the total), percent_capped (at most `cap`), banded (at least `floor`, at most
    `cap`), maximum (what the whole job may come to) or amount.
    """

    kind: str
    share: Decimal
    amount: Decimal
    floor: Decimal = Decimal(0)
    cap: Decimal = Decimal(0)
    maximum: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class DepositTerms:
    """The deposit that a customer pays before anything is ordered: a `share` of the `base`, "parts" or "total".

    `how_to_pay` are the workshop's own sentences. With `releases` a recorded deposit releases the orders. With `cover`
    it is at least what the workshop pays for goods that cannot be sent back.
    """

    base: str
    share: Decimal
    how_to_pay: tuple[str, ...] = ()
    releases: bool = False
    cover: bool = False


@dataclass(frozen=True, slots=True)
class Rules:
    """All settings of one rule set. Shares are rates (0.2 is 20 %)."""

    labour_rates: Mapping[str, Decimal]  # skill -> money an hour
    labour_costs: Mapping[str, Decimal]  # skill -> cost of an hour to the workshop
    labour_classes: Mapping[str, str]  # skill -> tax class, where it is not "labour"
    charges: Mapping[str, str]  # family of a consumable, case-folded -> one of CHARGES, whatever a kit states
    condition_factors: Mapping[str, Decimal]
    first_fit_factor: Decimal
    minimum_hours: Decimal  # of labour, charged for any visit
    supplied_share: Decimal  # of the hours that fit a part which the customer brings, charged on top of them
    markup_mode: str  # graduated or floored
    markup_bands: tuple[MarkupBand, ...]
    price_step: Decimal | None  # a selling price from the bands is rounded up to a multiple of it
    supplies: Supplies | None
    supplies_words: tuple[str, ...]  # the workshop's own sentences under the row of the supplies
    supplies_stated: bool  # the amount is always visible on page and paper, never only inside a sum
    fees: tuple[Fee, ...]
    taxes: tuple[NamedTax, ...]
    rounding: Rounding
    prices_include_tax: bool
    recoverable_tax_rate: Decimal
    duty_base: str
    offer: str  # what a quote is: an estimate (the expected price) or a quotation (a fixed one)
    validity_days: int
    currency_days: int | None  # for which a price in foreign money is guaranteed; None: as long as the quote is valid
    rate_stale_days: int  # an exchange rate that is older gets a notice
    margin_floor: Decimal | None
    coolant: CoolantRule
    bead_waste: Decimal
    standing_words: tuple[str, ...]
    cautions: tuple[CustomerCaution, ...]
    consents: tuple[Consent, ...]
    not_included: tuple[str, ...]
    bring_words: tuple[str, ...]  # what a customer brings with the vehicle, a sentence each
    bay_words: tuple[str, ...]  # the workshop's own sentences on every page of the bay
    withdrawal: Withdrawal | None
    ceiling: Ceiling
    deposit: DepositTerms | None
    wheel_check: str  # the distance after which wheel fasteners are checked again; empty: not stated
    retention_years: int
    own_retention_months: int | None  # where it is not a number of whole years
    import_months: int | None  # for which imported files are kept; None: always
    technicians: int  # working on one vehicle in parallel
    efficiency: Decimal  # billed hours per hour of the clock

    @classmethod
    def from_json(cls, content: Mapping[str, Any]) -> "Rules":
        """The rules from stored JSON, kept by their text. Refuses `bad_rules` and names the field: `taxes[1].rate`."""
        return _from_text(json.dumps(content))

    @classmethod
    def read(cls, read: RulesReader) -> "Rules":
        """The rules that the reader gives.

        The schema allows exactly the fields that are read here (`rules_schema.py`).
        """
        return cls(
            labour_rates=read.numbers("labour_rates"),
            labour_costs=read.numbers("labour_costs", {}),
            labour_classes=read.texts("labour_classes"),
            charges={name.casefold(): way for name, way in read.named("charges", CHARGES).items()},
            condition_factors={"none": ONE, **read.numbers("condition_factors", {})},
            first_fit_factor=read.number("first_fit_factor", "1"),
            minimum_hours=read.number("minimum.hours", "0"),
            supplied_share=read.share("supplied_share", "0"),
            markup_mode=read.one_of("markup.mode", MARKUP_MODES),
            markup_bands=tuple(_band(band) for band in read.objects("markup.bands")),
            price_step=read.step_or_none("markup.step", PRICE_STEPS),
            supplies=_supplies(read),
            supplies_words=read.lines("words.supplies"),
            supplies_stated=read.flag("supplies.stated"),
            fees=tuple(_fee(fee) for fee in read.objects("fees", [])),
            taxes=tuple(_tax(tax) for tax in read.objects("taxes", [])),
            rounding=Rounding(read.one_of("rounding", ("document", "line"), "document")),
            prices_include_tax=read.flag("prices_include_tax"),
            recoverable_tax_rate=read.number("recoverable_tax_rate", "0"),
            duty_base=read.one_of("duty_base", ("goods", "goods_and_freight"), "goods"),
            offer=read.one_of("offer", OFFERS, "quotation"),
            validity_days=read.whole("validity_days", 14),
            currency_days=read.whole_or_none("currency_days"),
            rate_stale_days=read.whole("rate_stale_days", 30),
            margin_floor=read.number_or_none("margin_floor"),
            coolant=_coolant(read),
            bead_waste=read.number("bead_waste", "1.25"),
            standing_words=read.lines("words.standing"),
            cautions=tuple(_caution(caution) for caution in read.sentences("words.cautions")),
            consents=tuple(_consent(consent, read) for consent in read.objects("words.consents", [])),
            not_included=read.lines("words.not_included"),
            bring_words=read.lines("words.bring"),
            bay_words=read.lines("words.bay"),
            withdrawal=_withdrawal(read),
            ceiling=_ceiling(read),
            deposit=_deposit(read),
            wheel_check=read.text("wheel_check", ""),
            retention_years=read.whole("retention_years", 7),
            own_retention_months=read.whole_or_none("retention_months"),
            import_months=read.whole_or_none("import_months"),
            technicians=max(read.whole("technicians", 1, MOST_TECHNICIANS), 1),
            efficiency=read.above_zero("efficiency", "1"),
        )

    @property
    def retention_months(self) -> int:
        """The months for which records are kept."""
        return self.retention_years * 12 if self.own_retention_months is None else self.own_retention_months

    def known_condition(self, condition: str) -> str:
        """The condition of the fasteners; "none" if the rules have no factor for it."""
        return condition if condition in self.condition_factors else "none"

    def labour_class(self, skill: str) -> str:
        return self.labour_classes.get(skill, "labour")

    def tax_classes(self) -> tuple[str, ...]:
        """All tax classes that a tax, a fee, the supplies or a skill names, sorted."""
        named = {tax_class for rule in self.taxes for tax_class in rule.tax.classes}
        named |= {fee.tax_class for fee in self.fees}
        named |= {"labour", "part", *self.labour_classes.values()}
        return tuple(sorted(named | ({self.supplies.tax_class} if self.supplies else set())))

    def line_classes(self) -> tuple[str, ...]:
        """The tax classes that a line may have: those of the rules, and UNTAXED where all of them are taxed."""
        taxed = {tax_class for rule in self.taxes for tax_class in rule.tax.classes}
        classes = self.tax_classes()
        return (*classes, UNTAXED) if taxed.issuperset(classes) else classes


def _band(read: RulesReader) -> MarkupBand:
    return MarkupBand(read.number_or_none("up_to"), read.number("x"))


def fee_base(written: str) -> str:
    """Returns `Fee.per` for the words of a person; the name of a family stays as written."""
    return FEE_BASES.get(" ".join(written.casefold().split()), written)


def _fee(read: RulesReader) -> Fee:
    per = read.text("per", "quote")
    fluid = read.text("fluid") if per == DRAINED else read.text("fluid", "")
    if bool(fluid) != (per == DRAINED):
        read.refuse("fluid", repr(fluid))
    return Fee(read.text("code"), read.text("title"), read.number("amount"), read.text("tax_class"), per, fluid)


def _tax(read: RulesReader) -> NamedTax:
    tax = Tax(read.text("code"), read.number("rate"), read.lines("classes"), read.lines("on_top_of"))
    return NamedTax(read.text("title", tax.code), tax)


def _supplies(read: RulesReader) -> Supplies | None:
    if not read.has("supplies"):
        return None
    return Supplies(
        read.lines("supplies.basis"),
        read.number("supplies.rate"),
        read.number_or_none("supplies.cap"),
        read.text("supplies.tax_class", "supplies"),
    )


def _consent(read: RulesReader, rules: RulesReader) -> Consent:
    """One consent. Rule sets from before `kind` existed required every consent."""
    kind = read.one_of("kind", (REQUIRED, OPTIONAL, BEGIN_EARLY), REQUIRED)
    if kind == BEGIN_EARLY and not rules.whole("withdrawal.days", 0):
        raise CalculationError("bad_rules", "withdrawal.days: missing")
    return Consent(read.text("code"), read.text("text"), kind, read.text("without", ""))


def _caution(read: RulesReader) -> CustomerCaution:
    return CustomerCaution(read.text("text"), frozenset(name.casefold() for name in read.lines("applies_to")))


@lru_cache(maxsize=64)
def _from_text(text: str) -> Rules:
    return Rules.read(RulesReader(json.loads(text), ""))


def _withdrawal(read: RulesReader) -> Withdrawal | None:
    days = read.whole("withdrawal.days", 0, MOST_WITHDRAWAL_DAYS)
    return Withdrawal(days, read.lines("words.withdrawal")) if days else None


def _ceiling(read: RulesReader) -> Ceiling:
    """Refuses a kind without its figure: read as 0 it would be a promise that nobody meant."""
    kind = read.one_of("ceiling.kind", ("none", *CEILING_FIGURES), "none")
    needed = CEILING_FIGURES.get(kind, ())
    figures = {name: read.number(f"ceiling.{name}", MISSING if name in needed else "0") for name in CEILING_NAMES}
    return Ceiling(kind, read.number("ceiling.share", "0"), read.number("ceiling.amount", "0"), **figures)


def _deposit(read: RulesReader) -> DepositTerms | None:
    share = read.share("deposit_share", "0")
    base = read.one_of("deposit.base", DEPOSIT_BASES, "parts")
    releases, cover = read.flag("deposit.releases"), read.flag("deposit.cover")
    return DepositTerms(base, share, read.lines("words.payment"), releases, cover) if share or cover else None


def _coolant(read: RulesReader) -> CoolantRule:
    return CoolantRule(
        drained_share=read.number("coolant.drained_share", "0.65"),
        residual=read.number("coolant.residual", "0.5"),
        target=read.number("coolant.target", "0.5"),
        premix=read.number("coolant.premix", "0.5"),
        order_allowance=read.number("coolant.order_allowance", "0.05"),
        top_up=read.number("coolant.top_up", "0.5"),
    )
