"""Work of other firms that goes with a kit, as a kit's file lists it: firm, cost, turnaround, who warrants what."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.utils import timezone

from kitting.models import Supplier
from kitting.services.kits import NewOutside
from shop.access import Actor, rules_on
from shop.calc.outside import PlannedOutsideWork, needs_itself
from shop.calc.rules import Rules
from shop.calc.visit import Step
from shop.imports.money import finer_than_currency
from shop.models import Operation
from shop.tables.columns import Field, Table
from shop.tables.engine import ParsedRow
from shop.tables.findings import Finding, must_fix, please_check
from shop.tables.numbers import number, share
from shop.tables.prices import MONEY
from shop.tables.sheets import Cell
from shop.tables.values import Value, article, text, yes_or_no

MOST_DAYS, MOST_ROUNDS = 250, 99


def days(cell: Cell, decimal: str) -> Value:
    """Reads a number of open days, at least one."""
    return _counted(MOST_DAYS, ("d",), cell, decimal)


def rounds(cell: Cell, decimal: str) -> Value:
    """Reads the number of rounds of a loop, at least one."""
    return _counted(MOST_ROUNDS, (), cell, decimal)


def _counted(most: int, units: tuple[str, ...], cell: Cell, decimal: str) -> Value:
    value = number(scale=0, zero=False, units=units, most=most)(cell, decimal)
    return Value(int(value.value), value.notes)  # type: ignore[call-overload]


OUTSIDE = Table(
    "outside work",
    (
        Field("title", ("title", "work", "what", "description"), text(200), True, True),
        Field("firm", ("firm", "outside firm", "done by"), text(120), True, True),
        Field("cost", ("cost", "they ask", "price"), MONEY, True, True),
        Field("tax_class", ("tax class", "taxed as"), text(20), True, True),
        Field("markup", ("markup", "markup %"), share(4)),
        Field("handling", ("handling",), MONEY),
        Field("days", ("turnaround", "days", "working days", "turnaround working days"), days),
        Field("starts_after", ("starts after", "after", "they start after"), article(40)),
        Field("needed_by", ("needed for", "needed by", "result needed for"), article(40)),
        Field("they_do", ("they do", "their work"), text(300)),
        Field("they_need", ("they need", "needs from us"), text(200)),
        Field("warranty", ("they warrant",), text(200)),
        Field("we_warrant", ("we warrant",), text(200)),
        Field("rounds", ("rounds",), rounds),
        Field("per_round", ("cost a round", "per round", "cost is for one round"), yes_or_no),
    ),
    ("outside work", "outside", "other firms"),
)


@dataclass(frozen=True, slots=True)
class ImportedOutside:
    """Outside work as the file states it; `starts_after` and `needed_by` are codes of operations."""

    title: str
    firm: str
    cost: Decimal
    tax_class: str
    markup: Decimal
    handling: Decimal
    days: int | None
    starts_after: str
    needed_by: str
    they_do: str
    they_need: str
    warranty: str
    we_warrant: str
    rounds: int | None
    per_round: bool
    row: ParsedRow


def outside_of(rows: Iterable[ParsedRow]) -> tuple[ImportedOutside, ...]:
    """The outside work of the file."""
    return tuple(_outside(row) for row in rows)


def _outside(row: ParsedRow) -> ImportedOutside:
    get = row.get
    texts = {name: get(name, "") for name in ("title", "firm", "tax_class", "starts_after", "needed_by", "they_do")}
    texts |= {name: get(name, "") for name in ("they_need", "warranty", "we_warrant")}
    amounts = {name: get(name, Decimal(0)) for name in ("cost", "markup", "handling")}
    return ImportedOutside(
        **texts, **amounts, days=get("days"), rounds=get("rounds"), per_round=get("per_round", False), row=row
    )


def outside_findings(
    actor: Actor, works: Iterable[ImportedOutside], steps: Mapping[str, tuple[str, ...]]
) -> list[Finding]:
    """Findings about amounts, tax classes, rounds and steps. `steps`: {code: predecessors} of the kit's labour."""
    works = tuple(works)
    amounts = [(getattr(work, name), work.row.at(name)) for work in works for name in ("cost", "handling")]
    findings = finer_than_currency(actor, amounts)
    classes = _tax_classes(actor)
    for work in works:
        if classes and work.tax_class not in classes:
            listed = ", ".join(classes)
            findings.append(please_check("outside_class_unknown", work.row.at("tax_class"), classes=listed))
        if work.per_round and work.rounds is None:
            findings.append(must_fix("rounds_missing", work.row.at("per_round")))
        for name in ("starts_after", "needed_by"):
            if (code := getattr(work, name)) and code not in steps:
                findings.append(please_check("outside_step_unknown", work.row.at(name), what=code))
        if _too_early(work, steps):
            findings.append(must_fix("result_before_work", work.row.at("needed_by"), what=work.needed_by))
    return findings


def new_outside(work: ImportedOutside, firm: Supplier, operations: Mapping[str, Operation]) -> NewOutside:
    """The work as a row of the kit."""
    return NewOutside(
        title=work.title,
        firm=firm,
        cost=work.cost,
        tax_class=work.tax_class,
        markup=work.markup,
        handling=work.handling,
        days=work.days,
        starts_after=operations.get(work.starts_after),
        needed_by=operations.get(work.needed_by),
        they_do=work.they_do,
        they_need=work.they_need,
        warranty=work.warranty,
        we_warrant=work.we_warrant,
        rounds=work.rounds,
        per_round=work.per_round,
    )


def _too_early(work: ImportedOutside, steps: Mapping[str, tuple[str, ...]]) -> bool:
    """True if the step that needs the result is done before the work can begin."""
    planned = PlannedOutsideWork("", "", "", None, work.starts_after, work.needed_by)
    return needs_itself(planned, [Step(code, "", 0, after=after) for code, after in steps.items()])


def _tax_classes(actor: Actor) -> tuple[str, ...]:
    """The tax classes of the rules in force; none in a shop without rules."""
    rule_set = rules_on(actor.shop, _today(actor))
    return Rules.from_json(rule_set.rules).line_classes() if rule_set else ()


def _today(actor: Actor) -> date:
    return timezone.now().astimezone(ZoneInfo(actor.shop.zone)).date()
