"""The price rules of one day. `Rules` is the only reader of the JSON that a rule set stores.

Rates, ceilings and wording differ between places and change: they are the workshop's own dated settings.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, NoReturn, TypeVar

from shop.calc.document import Rounding, Supplies, Tax
from shop.calc.errors import CalculationError

ONE = Decimal(1)
REQUIRED, OPTIONAL, BEGIN_EARLY = "required", "optional", "begin_within_withdrawal"
DRAINED = "litre drained"
MOST_WITHDRAWAL_DAYS = 90
DEPOSIT_BASES = ("parts", "total")
PRICE_STEPS = (Decimal("0.05"), Decimal("0.1"), ONE)
UNTAXED = "untaxed"  # the tax class of lines deliberately sold without tax, unless the rules name another
MOST_HOURS = 999  # of one piece of work: more is a typing mistake, and would be planned day by day
MOST_TECHNICIANS = 9  # at one vehicle
Kind = TypeVar("Kind")


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
    """The limit of extra work without asking the customer. `kind` is none, percent (`share` of the total) or amount."""

    kind: str
    share: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class DepositTerms:
    """The deposit that a customer pays before anything is ordered: a `share` of the `base`, "parts" or "total".

    `how_to_pay` are the workshop's own sentences. With `releases` a recorded deposit lets the orders go.
    """

    base: str
    share: Decimal
    how_to_pay: tuple[str, ...] = ()
    releases: bool = False


@dataclass(frozen=True, slots=True)
class Rules:
    """All settings of one rule set. Shares are rates (0.2 is 20 %)."""

    labour_rates: Mapping[str, Decimal]  # skill -> money an hour
    labour_costs: Mapping[str, Decimal]  # skill -> cost of an hour to the workshop
    labour_classes: Mapping[str, str]  # skill -> tax class, where it is not "labour"
    condition_factors: Mapping[str, Decimal]
    first_fit_factor: Decimal
    minimum_hours: Decimal  # of labour, charged for any visit
    markup_mode: str  # graduated or floored
    markup_bands: tuple[MarkupBand, ...]
    price_step: Decimal | None  # a selling price from the bands is rounded up to a multiple of it
    supplies: Supplies | None
    fees: tuple[Fee, ...]
    taxes: tuple[NamedTax, ...]
    rounding: Rounding
    prices_include_tax: bool
    recoverable_tax_rate: Decimal
    duty_base: str
    validity_days: int
    currency_days: int | None  # for which a price in foreign money is kept to; None: as long as the quote is valid
    rate_stale_days: int  # an exchange rate that is older gets a notice
    margin_floor: Decimal | None
    coolant: CoolantRule
    bead_waste: Decimal
    standing_words: tuple[str, ...]
    cautions: tuple[CustomerCaution, ...]
    consents: tuple[Consent, ...]
    not_included: tuple[str, ...]
    bay_words: tuple[str, ...]  # the workshop's own sentences on every page of the bay
    withdrawal: Withdrawal | None
    ceiling: Ceiling
    deposit: DepositTerms | None
    wheel_check: str  # the distance after which wheel fasteners are checked again; empty: not stated
    retention_years: int
    technicians: int  # working on one vehicle in parallel
    efficiency: Decimal  # billed hours per hour of the clock

    @classmethod
    def from_json(cls, content: Mapping[str, Any]) -> "Rules":
        """The rules from stored JSON. Refuses `bad_rules` and names the field, as in `taxes[1].rate`."""
        read = _Reader(content, "")
        return cls(
            labour_rates=read.numbers("labour_rates"),
            labour_costs=read.numbers("labour_costs", {}),
            labour_classes=read.texts("labour_classes"),
            condition_factors={"none": ONE, **read.numbers("condition_factors", {})},
            first_fit_factor=read.number("first_fit_factor", "1"),
            minimum_hours=read.number("minimum.hours", "0"),
            markup_mode=read.one_of("markup.mode", ("graduated", "floored")),
            markup_bands=tuple(_band(band) for band in read.objects("markup.bands")),
            price_step=_price_step(read),
            supplies=_supplies(read),
            fees=tuple(_fee(fee) for fee in read.objects("fees", [])),
            taxes=tuple(_tax(tax) for tax in read.objects("taxes", [])),
            rounding=Rounding(read.one_of("rounding", ("document", "line"), "document")),
            prices_include_tax=read.flag("prices_include_tax"),
            recoverable_tax_rate=read.number("recoverable_tax_rate", "0"),
            duty_base=read.one_of("duty_base", ("goods", "goods_and_freight"), "goods"),
            validity_days=read.whole("validity_days", 14),
            currency_days=read.whole_or_none("currency_days"),
            rate_stale_days=read.whole("rate_stale_days", 30),
            margin_floor=read.number_or_none("margin_floor"),
            coolant=_coolant(read),
            bead_waste=read.number("bead_waste", "1.25"),
            standing_words=read.lines("words.standing"),
            cautions=read.cautions("words.cautions"),
            consents=tuple(_consent(consent, read) for consent in read.objects("words.consents", [])),
            not_included=read.lines("words.not_included"),
            bay_words=read.lines("words.bay"),
            withdrawal=_withdrawal(read),
            ceiling=_ceiling(read),
            deposit=_deposit(read),
            wheel_check=read.text("wheel_check", ""),
            retention_years=read.whole("retention_years", 7),
            technicians=max(read.whole("technicians", 1, MOST_TECHNICIANS), 1),
            efficiency=read.above_zero("efficiency", "1"),
        )

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


def _band(read: "_Reader") -> MarkupBand:
    return MarkupBand(read.number_or_none("up_to"), read.number("x"))


def _price_step(read: "_Reader") -> Decimal | None:
    step = read.number_or_none("markup.step")
    return step if step is None or step in PRICE_STEPS else read.refuse("markup.step", str(step))


def _fee(read: "_Reader") -> Fee:
    per = read.text("per", "quote")
    fluid = read.text("fluid") if per == DRAINED else read.text("fluid", "")
    if bool(fluid) != (per == DRAINED):
        read.refuse("fluid", repr(fluid))
    return Fee(read.text("code"), read.text("title"), read.number("amount"), read.text("tax_class"), per, fluid)


def _tax(read: "_Reader") -> NamedTax:
    tax = Tax(read.text("code"), read.number("rate"), read.lines("classes"), read.lines("on_top_of"))
    return NamedTax(read.text("title", tax.code), tax)


def _supplies(read: "_Reader") -> Supplies | None:
    if read.value("supplies", None) is None:
        return None
    return Supplies(
        read.lines("supplies.basis"),
        read.number("supplies.rate"),
        read.number_or_none("supplies.cap"),
        read.text("supplies.tax_class", "supplies"),
    )


def _consent(read: "_Reader", rules: "_Reader") -> Consent:
    """One consent. Rule sets from before `kind` existed required every consent."""
    kind = read.one_of("kind", (REQUIRED, OPTIONAL, BEGIN_EARLY), REQUIRED)
    if kind == BEGIN_EARLY and not rules.whole("withdrawal.days", 0):
        raise CalculationError("bad_rules", "withdrawal.days: missing")
    return Consent(read.text("code"), read.text("text"), kind, read.text("without", ""))


def _withdrawal(read: "_Reader") -> Withdrawal | None:
    days = read.whole("withdrawal.days", 0, MOST_WITHDRAWAL_DAYS)
    return Withdrawal(days, read.lines("words.withdrawal")) if days else None


def _ceiling(read: "_Reader") -> Ceiling:
    kind = read.one_of("ceiling.kind", ("none", "percent", "amount"), "none")
    return Ceiling(kind, read.number("ceiling.share", "0"), read.number("ceiling.amount", "0"))


def _deposit(read: "_Reader") -> DepositTerms | None:
    share = read.number("deposit_share", "0")
    if share > ONE:
        read.refuse("deposit_share", str(share))
    base = read.one_of("deposit.base", DEPOSIT_BASES, "parts")
    return DepositTerms(base, share, read.lines("words.payment"), read.flag("deposit.releases")) if share else None


def _coolant(read: "_Reader") -> CoolantRule:
    return CoolantRule(
        drained_share=read.number("coolant.drained_share", "0.65"),
        residual=read.number("coolant.residual", "0.5"),
        target=read.number("coolant.target", "0.5"),
        premix=read.number("coolant.premix", "0.5"),
        order_allowance=read.number("coolant.order_allowance", "0.05"),
        top_up=read.number("coolant.top_up", "0.5"),
    )


MISSING: Any = object()


class _Reader:
    """Reads fields of nested JSON by dotted path. Errors name the path."""

    def __init__(self, content: Mapping[str, Any], path: str) -> None:
        self._content, self._path = content, path

    def value(self, path: str, default: Any = MISSING) -> Any:
        value: Any = self._content
        for name in path.split("."):
            if not isinstance(value, Mapping) or name not in value:
                return default if default is not MISSING else self.refuse(path, "missing")
            value = value[name]
        return value

    def number(self, path: str, default: str = MISSING) -> Decimal:
        return self._decimal(path, self.value(path, default))

    def above_zero(self, path: str, default: str) -> Decimal:
        number = self.number(path, default)
        return number if number else self.refuse(path, str(number))

    def number_or_none(self, path: str) -> Decimal | None:
        value = self.value(path, None)
        return None if value is None else self._decimal(path, value)

    def numbers(self, path: str, default: Any = MISSING) -> dict[str, Decimal]:
        return {key: self._decimal(f"{path}.{key}", value) for key, value in self._map(path, default).items()}

    def text(self, path: str, default: str = MISSING) -> str:
        return self._typed(path, self.value(path, default), str)

    def texts(self, path: str) -> dict[str, str]:
        return {key: self._typed(f"{path}.{key}", value, str) for key, value in self._map(path, {}).items()}

    def lines(self, path: str) -> tuple[str, ...]:
        lines = self._typed(path, self.value(path, []), list)
        return tuple(self._typed(f"{path}[{i}]", line, str) for i, line in enumerate(lines))

    def cautions(self, path: str) -> tuple[CustomerCaution, ...]:
        """The cautions: plain strings, as in the first rule sets, or objects with `text` and `applies_to`."""
        entries = self._typed(path, self.value(path, []), list)
        return tuple(self._caution(f"{path}[{i}]", entry) for i, entry in enumerate(entries))

    def _caution(self, path: str, entry: Any) -> CustomerCaution:
        if isinstance(entry, str):
            return CustomerCaution(entry)
        read = _Reader(self._typed(path, entry, dict), f"{self._path}{path}.")
        return CustomerCaution(read.text("text"), frozenset(name.casefold() for name in read.lines("applies_to")))

    def objects(self, path: str, default: Any = MISSING) -> list["_Reader"]:
        rows = self._typed(path, self.value(path, default), list)
        return [_Reader(self._typed(f"{path}[{i}]", row, dict), f"{path}[{i}].") for i, row in enumerate(rows)]

    def whole(self, path: str, default: int, most: int | None = None) -> int:
        value = self._typed(path, self.value(path, default), int)
        fits = value >= 0 and (most is None or value <= most) and not isinstance(value, bool)
        return value if fits else self.refuse(path, str(value))

    def whole_or_none(self, path: str) -> int | None:
        return None if self.value(path, None) is None else self.whole(path, 0)

    def flag(self, path: str) -> bool:
        return self._typed(path, self.value(path, False), bool)

    def one_of(self, path: str, allowed: tuple[str, ...], default: str = MISSING) -> str:
        value = self.value(path, default)
        return str(value) if value in allowed else self.refuse(path, str(value))

    def _map(self, path: str, default: Any) -> dict[str, Any]:
        return self._typed(path, self.value(path, default), dict)

    def _typed(self, path: str, value: Any, kind: type[Kind]) -> Kind:
        return value if isinstance(value, kind) else self.refuse(path, repr(value))

    def _decimal(self, path: str, value: Any) -> Decimal:
        """A finite number >= 0 from a string: a JSON number would already have been a float."""
        try:
            number = Decimal(self._typed(path, value, str))
        except InvalidOperation:
            return self.refuse(path, repr(value))
        return number if number.is_finite() and number >= 0 else self.refuse(path, str(value))

    def refuse(self, path: str, problem: str) -> NoReturn:
        raise CalculationError("bad_rules", f"{self._path}{path}: {problem}")
