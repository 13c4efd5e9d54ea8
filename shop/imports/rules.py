"""Imports price rules from a workbook with one sheet per subject, as the next rule set and dated rows.

Only what the file names changes: a sheet that is there replaces its part of the rules in force, a single rule its
value, and a workbook with closed days alone leaves the rules unchanged.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from django.db.models import Count, Q
from django.utils import timezone

from shop.access import Actor, rules_on
from shop.calc.quantity import plain
from shop.calc.rule_changes import RuleChange, difference
from shop.calc.rules import BEGIN_EARLY, DRAINED, OPTIONAL, REQUIRED
from shop.imports.money import Placed, finer_than_currency
from shop.imports.rules_bands import below_cost
from shop.imports.rules_hours import ImportedWeek, weeks_of
from shop.imports.rules_stored import EXAMPLE, WORDS, stored
from shop.imports.rules_tables import NAMED, TABLES
from shop.imports.skills import rates_missing
from shop.imports.sold import drained_names, sold_names
from shop.imports.vehicles import CAPACITIES
from shop.models import ClosedDay, Operation, Rate, Vehicle
from shop.queries.calendar import shop_day
from shop.queries.families import families, uncharged_fees
from shop.services.opening_hours import write_week
from shop.services.rates import add_rates
from shop.services.rules import add_rules, newest_rules, refusal
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import MUST_FIX, Finding, facts_of, must_fix, please_check
from shop.tables.registry import register
from shop.tables.values import CellError

RULE_TABLES = ("rules", "labour rates", "bands", "taxes", "fees", "words", "conditions", "consumables")
OF_SHEETS = ("labour_rates", "labour_costs", "labour_classes", "charges", "condition_factors", "words")
MOST_CHANGES = 20  # in the lines of what a file becomes
CONSENTS = (REQUIRED, OPTIONAL, BEGIN_EARLY)


@dataclass(frozen=True, slots=True)
class ImportedRate:
    """An exchange rate as the file states it."""

    currency: str
    valid_from: date | None
    rate: Decimal
    row: ParsedRow


@dataclass(frozen=True, slots=True)
class RulesPlan:
    """`rules` are None and `weeks` empty if the file does not contain them. `amounts` are in the shop's own money.

    `rules` are what the file names; `completed` adds the rest from the rules in force.
    """

    rules: dict[str, Any] | None
    valid_from: date | None
    weeks: tuple[ImportedWeek, ...]
    closed: tuple[tuple[date, str], ...]
    rates: tuple[ImportedRate, ...]
    amounts: tuple[Placed, ...]
    applies_to: tuple[tuple[str, Finding], ...] = ()  # (name that a caution is tied to, its place)
    drained: tuple[tuple[str, Finding], ...] = ()  # (fluid that a fee is tied to, its place)
    fees: tuple[Finding, ...] = ()  # the place of what each fee of the rules is charged by
    bands: tuple[ParsedRow, ...] = ()


def plan(file: ParsedFile) -> ImportPreview:
    """The rules, opening hours, closed days and exchange rates of the file."""
    findings: list[Finding] = []
    named = _named(file, findings)
    valid_from = named.pop("valid_from", None)
    rules = None
    if any(file.has(table) for table in RULE_TABLES):
        rules = _rules(file, named)
        findings += _fluids(file)
        findings += _applies_in_vain(file)
    weeks = tuple(weeks_of(file.of("calendar"), findings))
    closed = tuple((row.get("date"), row.get("why", "")) for row in file.of("closed days") if row.get("date"))
    rates = tuple(
        ImportedRate(row.get("currency", ""), row.get("valid_from"), row.get("rate", Decimal(1)), row)
        for row in file.of("exchange rates")
    )
    findings += _rates_twice(rates)
    amounts = tuple(_amounts(file, named))
    cautions = [row for row in file.of("words") if row.get("kind") == "caution"]
    applies_to = tuple((name, row.at("applies_to")) for row in cautions for name in row.get("applies_to", ()))
    drained = tuple((row.get("fluid"), row.at("fluid")) for row in file.of("fees") if row.get("fluid"))
    fees = tuple(row.at("per") for row in file.of("fees"))
    return ImportPreview(
        RulesPlan(rules, valid_from, weeks, closed, rates, amounts, applies_to, drained, fees, file.of("bands")),
        tuple(findings),
    )


def _amounts(file: ParsedFile, named: dict[str, Any]) -> Iterator[Placed]:
    """Amounts that are charged unchanged. A fee per litre is a unit price and may be finer."""
    for row in file.of("labour rates"):
        yield row.get("rate"), row.at("rate")
    for row in file.of("fees"):
        if row.get("per", "quote") == "quote":
            yield row.get("amount"), row.at("amount")
    for row in file.of("rules"):
        path, _ = NAMED.get(row.get("rule", ""), ("", None))
        if path in ("supplies.cap", "ceiling.amount", "ceiling.floor", "ceiling.cap", "ceiling.maximum"):
            yield named.get(path), row.at("value")


def _named(file: ParsedFile, findings: list[Finding]) -> dict[str, Any]:
    """{dotted path: value} of the sheet of single rules."""
    values: dict[str, Any] = {}
    for row in file.of("rules"):
        name = row.get("rule", "")
        entry = NAMED.get(name)
        if entry is None:
            findings.append(please_check("rule_unknown", row.at("rule"), what=row.shown.get("rule", "")))
            continue
        path, read = entry
        if path in values:
            findings.append(must_fix("rule_twice", row.at("rule"), what=row.shown.get("rule", "")))
        if row.get("value") is None:
            continue
        try:
            value = read(*row.get("value"))
        except CellError as problem:
            findings.append(must_fix(problem.code, row.at("value"), **dict(problem.facts)))
            continue
        values[path] = value.value
        findings += [Finding(weight, code, facts, *_place(row)) for weight, code, facts in value.notes]
    return values


def _place(row: ParsedRow) -> tuple[Any, ...]:
    at = row.at("value")
    return at.sheet, at.row, at.column, at.field, at.heading, at.says


def _rules(file: ParsedFile, named: dict[str, Any]) -> dict[str, Any]:
    """The part of the JSON that `Rules` reads which the file names; figures are strings."""
    rules: dict[str, Any] = {}
    if file.has("labour rates"):
        for name, column in (("labour_rates", "rate"), ("labour_costs", "cost"), ("labour_classes", "tax_class")):
            rules[name] = _by(file.of("labour rates"), "skill", column)
    if file.has("consumables"):
        rules["charges"] = _by(file.of("consumables"), "family", "charge")
    if file.has("conditions"):
        rules["condition_factors"] = _by(file.of("conditions"), "condition", "factor")
    if file.has("bands"):
        rules["markup"] = {"bands": [_row(row, ("up_to", "x")) for row in file.of("bands")]}
    if file.has("taxes"):
        rules["taxes"] = [_row(row, ("code", "title", "rate", "classes", "on_top_of")) for row in file.of("taxes")]
    if file.has("fees"):
        fields = ("code", "title", "amount", "tax_class", "per", "fluid")
        rules["fees"] = [_row(row, fields) for row in file.of("fees")]
    if file.has("words"):
        rules["words"] = {
            **{kind: _texts(file, kind) for kind in WORDS},
            "cautions": [_caution(row) for row in file.of("words") if row.get("kind") == "caution"],
            "consents": [_consent(row) for row in file.of("words") if row.get("kind") in CONSENTS],
        }
    for path, value in named.items():
        _put(rules, path, _plain(value))
    return rules


def completed(before: Mapping[str, Any], part: Mapping[str, Any]) -> dict[str, Any]:
    """The rules before with what a file names in its place. A sheet counts as a whole, single rules one by one."""
    rules = dict(before)
    for name, value in part.items():
        single = isinstance(value, Mapping) and name not in OF_SHEETS
        rules[name] = {**rules.get(name, {}), **value} if single else value
    return rules


def _fluids(file: ParsedFile) -> list[Finding]:
    """A fee per litre drained must name its fluid, and no other fee may."""
    findings = []
    for row in file.of("fees"):
        if bool(row.get("fluid")) != (row.get("per") == DRAINED):
            code = "fee_without_fluid" if row.get("per") == DRAINED else "fee_with_fluid"
            findings.append(must_fix(code, row.at("fluid"), what=row.get("title", "")))
    return findings


def _consent(row: ParsedRow) -> dict[str, str]:
    return {name: row.get(name, "") for name in ("code", "text", "kind", "without")}


def _texts(file: ParsedFile, kind: str) -> list[str]:
    return [row.get("text", "") for row in file.of("words") if row.get("kind") == kind]


def _caution(row: ParsedRow) -> str | dict[str, Any]:
    applies_to = row.get("applies_to", ())
    return {"text": row.get("text", ""), "applies_to": list(applies_to)} if applies_to else row.get("text", "")


def _applies_in_vain(file: ParsedFile) -> list[Finding]:
    """Findings for terms and consents with an "applies to", which has no effect: they apply to every quote."""
    rows = (row for row in file.of("words") if row.get("applies_to") and row.get("kind") != "caution")
    return [must_fix("applies_to_cautions", row.at("applies_to")) for row in rows]


def _by(rows: tuple[ParsedRow, ...], key: str, value: str) -> dict[str, Any]:
    return {row.get(key): _plain(row.get(value)) for row in rows if row.get(key) and row.get(value) is not None}


def _row(row: ParsedRow, names: tuple[str, ...]) -> dict[str, Any]:
    return {name: _plain(row.get(name)) for name in names if row.get(name) is not None}


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return plain(value)
    return list(value) if isinstance(value, tuple) else value


def _put(target: dict[str, Any], path: str, value: Any) -> None:
    *above, name = path.split(".")
    for key in above:
        target = target.setdefault(key, {})
    target[name] = value


def _problems(plan: RulesPlan, rules: dict[str, Any]) -> list[Finding]:
    """The faults for which the completed rules cannot be used; without any, the bands that sell below cost."""
    if problem := refusal(rules):
        return [must_fix(f"rules_{problem.code}", culprit=problem.culprit)]
    return below_cost(plan.bands, rules)


def _base(actor: Actor, plan: RulesPlan, today: date) -> dict[str, Any]:
    """The rules that are in force on the day from which the file applies, as on the screen."""
    row = rules_on(actor.shop, plan.valid_from or today)
    return dict(row.rules) if row else {}


def _rates_twice(rates: tuple[ImportedRate, ...]) -> list[Finding]:
    seen: dict[tuple[str, date | None], int] = {}
    findings = []
    for rate in rates:
        first = seen.setdefault((rate.currency, rate.valid_from), rate.row.number)
        if first != rate.row.number:
            findings.append(must_fix("row_twice", rate.row.at("currency"), first=first, what=rate.currency))
    return findings


def check(actor: Actor, plan: RulesPlan) -> ImportPreview:
    """Compares the plan with the shop's rates, names and fluids."""
    findings = finer_than_currency(actor, plan.amounts)
    stored_rates = {(row.currency, row.valid_from): row.rate for row in Rate.objects.filter(shop=actor.shop)}
    for rate in plan.rates:
        if rate.currency == actor.shop.currency:
            findings.append(must_fix("rate_of_own_currency", rate.row.at("currency"), currency=rate.currency))
        stored = stored_rates.get((rate.currency, rate.valid_from)) if rate.valid_from else None
        if stored is not None and stored != rate.rate:
            findings.append(must_fix("rate_already_there", rate.row.at("rate"), rate=plain(stored)))
    today = shop_day(actor.shop, timezone.now())
    findings += [must_fix("hours_day_past", at.where) for at in plan.weeks if at.valid_from and at.valid_from < today]
    findings += _unknown_names(actor, plan)
    findings += _unknown_fluids(actor, plan)
    findings += _unknown_families(actor, plan)
    if plan.rules is None:
        return ImportPreview(plan, tuple(findings), _becomes(actor, plan, None))
    base = _base(actor, plan, today)
    rules = completed(base, plan.rules)
    problems = _problems(plan, rules)
    findings += [*problems, *rates_missing(actor, rules.get("labour_rates", {}))]
    unusable = any(problem.weight == MUST_FIX for problem in problems)
    changed = rules if unusable or _differs(actor, base, rules) else None
    changes = () if unusable or not base else difference(base, rules, actor.shop.exponent)
    return ImportPreview(plan, tuple(findings), _becomes(actor, plan, changed, changes))


def _differs(actor: Actor, base: dict[str, Any], rules: dict[str, Any]) -> bool:
    return not base or bool(difference(base, rules, actor.shop.exponent))


def _unknown_names(actor: Actor, plan: RulesPlan) -> list[Finding]:
    """Findings for cautions tied to an unknown name, which would never be shown, with similar names.

    A shop without labour has nothing to compare with; that is one finding.
    """
    if not plan.applies_to:
        return []
    if not Operation.objects.filter(shop=actor.shop).exists():
        return [please_check("applies_to_unchecked", n=len(plan.applies_to))]
    names = {name.casefold(): name for name in sorted(sold_names(actor))}
    findings = []
    for name, where in plan.applies_to:
        if name.casefold() not in names:
            similar = ", ".join(names[match] for match in get_close_matches(name.casefold(), names, n=3))
            findings.append(
                please_check("applies_to_like" if similar else "applies_to_unknown", where, what=name, meant=similar)
            )
    return findings


def _unknown_fluids(actor: Actor, plan: RulesPlan) -> Iterator[Finding]:
    """Findings for fees on a fluid that nothing drains, which would never be charged.

    They need not be wrong: kits and vehicles may be imported after the rules.
    """
    drained_fluids = {*CAPACITIES, *drained_names(actor)} if plan.drained else set()
    rare = _recorded(actor, {name for name, _ in plan.drained} - drained_fluids)
    for name, where in plan.drained:
        if name not in drained_fluids | rare:
            similar = ", ".join(get_close_matches(name, sorted(drained_fluids), n=3))
            yield please_check("fluid_like" if similar else "fluid_unknown", where, what=name, meant=similar)


def _unknown_families(actor: Actor, plan: RulesPlan) -> Iterator[Finding]:
    """Findings for fees, new or changed, on a family that no consumable has, as the screen refuses them."""
    if plan.rules is None or "fees" not in plan.rules:
        return
    newest, stored = newest_rules(actor.shop), families(actor)
    before = newest.rules.get("fees", ()) if newest else ()
    for at, family in uncharged_fees(plan.rules["fees"], before, stored):
        yield must_fix("fee_family_unknown", plan.fees[at], family=family, families=", ".join(stored))


def _recorded(actor: Actor, names: set[str]) -> set[str]:
    """The names under which some vehicle of the shop has a capacity, by one query for all of them."""
    if not names:
        return set()
    ordered = sorted(names)
    counts = {f"n{at}": Count("pk", filter=Q(capacities__has_key=name)) for at, name in enumerate(ordered)}
    totals = Vehicle.objects.filter(shop=actor.shop).aggregate(**counts)
    return {name for at, name in enumerate(ordered) if totals[f"n{at}"]}


def _becomes(
    actor: Actor, plan: RulesPlan, changed: Mapping[str, Any] | None, changes: Sequence[RuleChange] = ()
) -> tuple[Finding, ...]:
    """The lines that say what the file becomes.

    `changed` are the completed rules; None if they equal those in force.
    """
    lines = []
    if plan.rules is not None and changed is None:
        lines.append(Finding("", "rules_unchanged"))
    if changed is not None:
        newest = newest_rules(actor.shop)
        number = newest.number + 1 if newest else 1
        day = plan.valid_from.isoformat() if plan.valid_from else ""
        key = "rules" if day else "rules_from_today"
        lines.append(Finding("", key, facts_of(number=number, day=day, n=len(changed.get("labour_rates", ())))))
    lines += [_change(change) for change in changes[:MOST_CHANGES]]
    if len(changes) > MOST_CHANGES:
        lines.append(Finding("", "rule_changes", facts_of(n=len(changes) - MOST_CHANGES)))
    for hours in plan.weeks:
        day = hours.valid_from.isoformat() if hours.valid_from else ""
        lines.append(Finding("", "week_from" if day else "week", facts_of(n=len(hours.week), day=day)))
    if plan.closed:
        lines.append(Finding("", "closed_days", facts_of(n=len(plan.closed))))
    if plan.rates:
        lines.append(Finding("", "exchange_rates", facts_of(n=len(plan.rates))))
    return tuple(lines)


def _change(change: RuleChange) -> Finding:
    facts = {name: fact for name, fact in asdict(change).items() if fact is not None}
    return Finding("", "rule_change", facts_of(**facts))


def write(actor: Actor, plan: RulesPlan, day: date) -> None:
    """Writes the next rule set, opening hours, closed days and new exchange rates."""
    if plan.rules is not None:
        base = _base(actor, plan, day)
        rules = completed(base, plan.rules)
        if _differs(actor, base, rules):
            add_rules(actor=actor, rules=rules, valid_from=plan.valid_from or day)
    for hours in sorted(plan.weeks, key=lambda hours: hours.valid_from or day):
        write_week(actor=actor, week=hours.week, valid_from=hours.valid_from or day, verb="imported")
    for closed, reason in plan.closed:
        ClosedDay.objects.update_or_create(shop=actor.shop, date=closed, defaults={"reason": reason})
    stored_keys = set(Rate.objects.filter(shop=actor.shop).values_list("currency", "valid_from"))
    rates = [
        Rate(shop=actor.shop, currency=rate.currency, valid_from=rate.valid_from or day, rate=rate.rate)
        for rate in plan.rates
        if (rate.currency, rate.valid_from or day) not in stored_keys
    ]
    add_rates(actor=actor, rates=rates)


KIND = register(FileKind("rules", TABLES, plan, check, write, stored=stored, example=EXAMPLE))
