"""The labour of a quote: charged hours, a person's own hours in their place, prices that add up to the cent."""

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
OWN = "own:"  # before the code of a kit that has hours but no template


@dataclass(frozen=True, slots=True)
class QuoteLabour:
    operations: tuple[PricedOperation, ...]
    skills: tuple[PricedSkill, ...]
    kits: Mapping[str, KitLabour]
    hours: Decimal
    apart_hours: Decimal
    total: Decimal


def price_labour(given: QuoteInput) -> QuoteLabour:
    labour = charge_labour(_labour_input(given))
    hours = {line.code: _hours(line, given) for line in labour.lines}
    skills = _skills(labour, hours, given)
    return QuoteLabour(
        operations=_operations(labour, hours, skills, given),
        skills=skills,
        kits={kit.code: kit for kit in labour.kits},
        hours=sum(hours.values(), NOTHING),
        apart_hours=sum((labour_kit.alone_charged for labour_kit in _each_kit(labour, given)), NOTHING),
        total=sum((skill.price for skill in skills), rounded(NOTHING, given.exponent)),
    )


def _each_kit(labour: Labour, given: QuoteInput) -> list[KitLabour]:
    by_code = {kit.code: kit for kit in labour.kits}
    return [by_code[kit.code] for kit in given.kits]


def _labour_input(given: QuoteInput) -> LabourInput:
    own = [kit for kit in given.kits if not kit.operations and kit.own_hours is not None]
    return LabourInput(
        kits=tuple(KitEntry(kit.code, _entries(kit), kit.first_fit) for kit in given.kits),
        operations=(*given.operations, *{kit.code: _own_operation(kit, given) for kit in own}.values()),
        overlaps=given.overlaps,
        condition_factor=_factor(given),
        rates=given.rules.labour_rates,
        exponent=given.exponent,
    )


def _entries(kit: ChosenKit) -> tuple[KitOperation, ...]:
    if kit.operations or kit.own_hours is None:
        return kit.operations
    return (KitOperation(OWN + kit.code, kit.own_hours),)


def _own_operation(kit: ChosenKit, given: QuoteInput) -> LabourOperation:
    """A kit with only a number of hours is fitted at the first skill of the rules."""
    skill = next(iter(given.rules.labour_rates), "")
    return LabourOperation(OWN + kit.code, skill)


def _factor(given: QuoteInput) -> Decimal:
    try:
        return given.rules.condition_factors[given.condition]
    except KeyError:
        raise CalculationError("bad_factor", given.condition) from None


def _hours(line: LabourLine, given: QuoteInput) -> Decimal:
    override = given.overrides.get(f"labour:{line.code}")
    return rounded(override.value, 1) if override else line.hours


def _skills(labour: Labour, hours: Mapping[str, Decimal], given: QuoteInput) -> tuple[PricedSkill, ...]:
    found = []
    for skill in labour.skills:
        worked = sum((hours[line.code] for line in labour.lines if line.skill == skill.skill), NOTHING)
        cost = given.rules.labour_costs.get(skill.skill)
        found.append(
            PricedSkill(
                skill.skill,
                worked,
                skill.rate,
                rounded(worked * skill.rate, given.exponent),
                None if cost is None else rounded(worked * cost, given.exponent),
            )
        )
    return tuple(found)


def _operations(
    labour: Labour, hours: Mapping[str, Decimal], skills: tuple[PricedSkill, ...], given: QuoteInput
) -> tuple[PricedOperation, ...]:
    """A skill is priced once; its price is shared over its operations so that they add up to it."""
    prices: dict[str, Decimal] = {}
    for skill in skills:
        codes = [line.code for line in labour.lines if line.skill == skill.skill]
        shares = allocate(skill.price, [hours[code] for code in codes], given.exponent)
        prices |= dict(zip(codes, shares, strict=True))
    letters = {kit.code: kit.letter for kit in reversed(given.kits)}
    rates = {skill.skill: skill.rate for skill in skills}
    titles = {OWN + kit.code: kit.title for kit in given.kits} | dict(given.titles)
    return tuple(
        PricedOperation(
            code=line.code,
            title=titles[line.code],
            skill=line.skill,
            kits=tuple(sorted({letters[asked.kit] for asked in line.asked})),
            hours=hours[line.code],
            rate=rates[line.skill],
            price=prices[line.code],
            line=line,
            reasons=_reasons(line, given),
        )
        for line in labour.lines
    )


def _reasons(line: LabourLine, given: QuoteInput) -> tuple[Reason, ...]:
    override = given.overrides.get(f"labour:{line.code}")
    if override:
        return (Reason.of("overridden", because=override.because, computed=line.hours, unit="h"),)
    return line.reasons
