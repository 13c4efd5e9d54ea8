"""The labour of one visit that fits several kits: the calculation of labour (fixtures/vectors/labour.json).

Units: hours are exact Decimals until each line is rounded to 0.1; rates are money per hour, factors are 1 or more.
"""

from dataclasses import dataclass
from decimal import Decimal, localcontext

from quotes.calc.labour_input import (
    KitEntry,
    KitOperation,
    LabourInput,
    LabourOperation,
    Overlap,
    SharingRule,
    check_labour,
)
from quotes.calc.labour_reasons import explain
from quotes.calc.visit import KitHours, LabourCatalogue, VisitHours, charge_visit
from shop.calc.money import EXACT, rounded
from shop.calc.reason import Reason

__all__ = [
    "KitHours",
    "KitEntry",
    "KitLabour",
    "KitOperation",
    "Labour",
    "LabourInput",
    "LabourLine",
    "LabourOperation",
    "Overlap",
    "Reason",
    "SharingRule",
    "SkillLabour",
    "charge_labour",
]

_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class LabourLine:
    """One operation of the visit. `hours` are charged (rounded to 0.1); `gathered` are exact, after step 1."""

    code: str
    skill: str
    hours: Decimal
    gathered: Decimal
    kit_hours: tuple[KitHours, ...]
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class SkillLabour:
    """The charged hours of one skill, at its rate."""

    skill: str
    hours: Decimal
    rate: Decimal
    price: Decimal


@dataclass(frozen=True, slots=True)
class KitLabour:
    """One kit by itself: exact and charged hours, and the hours that one entry of it adds to the visit."""

    code: str
    alone_hours: Decimal
    alone_charged: Decimal
    marginal_hours: Decimal


@dataclass(frozen=True, slots=True)
class Labour:
    """The labour of the visit. `hours` are charged.

    `together_hours` and `overlap_hours` are exact, before the condition factor and rounding.
    """

    lines: tuple[LabourLine, ...]
    skills: tuple[SkillLabour, ...]
    kits: tuple[KitLabour, ...]
    hours: Decimal
    together_hours: Decimal
    overlap_hours: Decimal
    total: Decimal


def charge_labour(labour_input: LabourInput) -> Labour:
    """Hours and price of the visit, and the hours that each kit adds.

    Refuses `unknown_operation` (the code, and where it is named), `unknown_rate` (the skill), `negative_hours` (the
    operation and its kit, or the overlap), `bad_factor` (kit or condition), `includes_loop` (its codes in order),
    `not_exact` (the figure).
    """
    check_labour(labour_input)
    with localcontext(EXACT):
        catalogue = LabourCatalogue.of(labour_input)
        visit = charge_visit(labour_input.kits, catalogue)
        alone = [charge_visit((kit,), catalogue) for kit in labour_input.kits]
        skills = _skills(labour_input, visit)
        return Labour(
            lines=_lines(labour_input, visit, catalogue),
            skills=skills,
            kits=_kits(labour_input, visit, alone, catalogue),
            hours=visit.total_hours,
            together_hours=visit.total_together,
            overlap_hours=sum((kit_visit.total_together for kit_visit in alone), _NOTHING) - visit.total_together,
            total=sum((skill.price for skill in skills), rounded(_NOTHING, labour_input.exponent)),
        )


def _lines(labour_input: LabourInput, visit: VisitHours, catalogue: LabourCatalogue) -> tuple[LabourLine, ...]:
    return tuple(
        LabourLine(
            code=operation.code,
            skill=operation.skill,
            hours=visit.hours[operation.code],
            gathered=visit.gathered[operation.code],
            kit_hours=tuple(visit.kit_hours[operation.code]),
            reasons=explain(operation.code, visit, catalogue),
        )
        for operation in labour_input.operations
        if operation.code in visit.gathered
    )


def _skills(labour_input: LabourInput, visit: VisitHours) -> tuple[SkillLabour, ...]:
    hours: dict[str, Decimal] = {}
    for operation in labour_input.operations:
        if operation.code in visit.hours:
            hours[operation.skill] = hours.get(operation.skill, _NOTHING) + visit.hours[operation.code]
    return tuple(
        SkillLabour(
            skill,
            skill_hours,
            labour_input.rates[skill],
            rounded(skill_hours * labour_input.rates[skill], labour_input.exponent),
        )
        for skill, skill_hours in hours.items()
    )


def _kits(
    labour_input: LabourInput, visit: VisitHours, alone: list[VisitHours], catalogue: LabourCatalogue
) -> tuple[KitLabour, ...]:
    kits: dict[str, KitLabour] = {}
    for at, (kit, by_itself) in enumerate(zip(labour_input.kits, alone, strict=True)):
        if kit.code not in kits:
            others = charge_visit(labour_input.kits[:at] + labour_input.kits[at + 1 :], catalogue)
            kits[kit.code] = KitLabour(
                code=kit.code,
                alone_hours=by_itself.total_together,
                alone_charged=by_itself.total_hours,
                marginal_hours=visit.total_hours - others.total_hours,
            )
    return tuple(kits.values())
