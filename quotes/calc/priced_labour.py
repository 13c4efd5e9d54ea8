"""The labour of a quote: charged hours, overridden hours, and prices that add up to the cent."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.labour import (
    KitEntry,
    KitLabour,
    KitOperation,
    Labour,
    LabourInput,
    LabourLine,
    LabourOperation,
    charge_labour,
)
from quotes.calc.priced import PricedOperation, PricedSkill
from quotes.calc.quote_input import ChosenKit, QuoteInput
from shop.calc.errors import CalculationError
from shop.calc.money import allocate, rounded
from shop.calc.reason import Reason

NOTHING = Decimal(0)
OWN = "own:"  # prefix of the operation of a kit that has hours but no template
WORK = "work:"  # prefix of the operation of a labour line that has hours at the rate of a skill
LINE = "line:"  # prefix of the entry of a labour line among those of the kits


@dataclass(frozen=True, slots=True)
class QuoteLabour:
    """The labour of a quote. `apart_hours`: each kit fitted alone, and each labour line alone, added up."""

    operations: tuple[PricedOperation, ...]
    skills: tuple[PricedSkill, ...]
    kits: Mapping[str, KitLabour]
    hours: Decimal
    apart_hours: Decimal
    total: Decimal


def price_labour(quote: QuoteInput) -> QuoteLabour:
    """The labour of a quote at the rates of its rules, with overrides."""
    labour = charge_labour(_labour_input(quote))
    hours = {line.code: _hours(line, quote) for line in labour.lines}
    skills = _skills(labour, hours, quote)
    return QuoteLabour(
        operations=_operations(labour, hours, skills, quote),
        skills=skills,
        kits={kit.code: kit for kit in labour.kits},
        hours=sum(hours.values(), NOTHING),
        apart_hours=sum((labour_kit.alone_charged for labour_kit in _kits_as_quoted(labour, quote)), NOTHING),
        total=sum((skill.price for skill in skills), rounded(NOTHING, quote.exponent)),
    )


def _kits_as_quoted(labour: Labour, quote: QuoteInput) -> list[KitLabour]:
    """One entry for each kit and each labour line of the quote, repeated kits included."""
    by_code = {kit.code: kit for kit in labour.kits}
    return [by_code[code] for code in (*(kit.code for kit in quote.kits), *(LINE + done.line for done in quote.labour))]


def _labour_input(quote: QuoteInput) -> LabourInput:
    without_template = [kit for kit in quote.kits if not kit.operations and kit.own_hours is not None]
    return LabourInput(
        kits=(
            *(KitEntry(kit.code, _entries(kit), kit.first_fit) for kit in quote.kits),
            *(KitEntry(LINE + done.line, (KitOperation(done.code, done.hours),)) for done in quote.labour),
        ),
        operations=(*quote.operations, *{kit.code: _own_operation(kit, quote) for kit in without_template}.values()),
        overlaps=quote.overlaps,
        condition_factor=_factor(quote),
        rates=quote.rules.labour_rates,
        exponent=quote.exponent,
    )


def _entries(kit: ChosenKit) -> tuple[KitOperation, ...]:
    if kit.operations or kit.own_hours is None:
        return kit.operations
    return (KitOperation(OWN + kit.code, kit.own_hours),)


def _own_operation(kit: ChosenKit, quote: QuoteInput) -> LabourOperation:
    """The operation of a kit with a number of hours and no template, at the first skill of the rules."""
    skill = next(iter(quote.rules.labour_rates), "")
    return LabourOperation(OWN + kit.code, skill)


def _factor(quote: QuoteInput) -> Decimal:
    try:
        return quote.rules.condition_factors[quote.condition]
    except KeyError:
        raise CalculationError("bad_factor", quote.condition) from None


def _hours(line: LabourLine, quote: QuoteInput) -> Decimal:
    override = quote.overrides.get(f"labour:{line.code}")
    return rounded(override.value, 1) if override else line.hours


def _skills(labour: Labour, hours: Mapping[str, Decimal], quote: QuoteInput) -> tuple[PricedSkill, ...]:
    priced = []
    for skill in labour.skills:
        worked = sum((hours[line.code] for line in labour.lines if line.skill == skill.skill), NOTHING)
        cost = quote.rules.labour_costs.get(skill.skill)
        priced.append(
            PricedSkill(
                skill.skill,
                worked,
                skill.rate,
                rounded(worked * skill.rate, quote.exponent),
                None if cost is None else rounded(worked * cost, quote.exponent),
            )
        )
    return tuple(priced)


def _operations(
    labour: Labour, hours: Mapping[str, Decimal], skills: tuple[PricedSkill, ...], quote: QuoteInput
) -> tuple[PricedOperation, ...]:
    """The operations. A skill is priced once, and its price is shared over its operations so that they add up to it."""
    prices: dict[str, Decimal] = {}
    for skill in skills:
        codes = [line.code for line in labour.lines if line.skill == skill.skill]
        shares = allocate(skill.price, [hours[code] for code in codes], quote.exponent)
        prices |= dict(zip(codes, shares, strict=True))
    letters = {kit.code: kit.letter for kit in reversed(quote.kits)}
    rates = {skill.skill: skill.rate for skill in skills}
    titles = {OWN + kit.code: kit.title for kit in quote.kits} | dict(quote.titles)
    return tuple(
        PricedOperation(
            code=line.code,
            title=titles[line.code],
            skill=line.skill,
            kits=tuple(sorted({letters[entry.kit] for entry in line.kit_hours if entry.kit in letters})),
            hours=hours[line.code],
            rate=rates[line.skill],
            price=prices[line.code],
            line=line,
            reasons=_reasons(line, quote),
        )
        for line in labour.lines
    )


def _reasons(line: LabourLine, quote: QuoteInput) -> tuple[Reason, ...]:
    override = quote.overrides.get(f"labour:{line.code}")
    if override:
        return (Reason.of("overridden", because=override.because, computed=line.hours, unit="h"),)
    return line.reasons
