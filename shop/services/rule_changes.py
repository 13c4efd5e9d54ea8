"""Changes of the price rules: the next set from typed figures, from a part of a rule set, or from an earlier set."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db import transaction
from django.http import Http404

from shop.access import Actor, rule_set, rules_on
from shop.calc.errors import CalculationError
from shop.calc.rule_changes import RuleChange, difference, merged, with_figures
from shop.calc.rule_fields import FIELDS, SKILL_MAPS, Row
from shop.calc.rules_schema import unknown_fields
from shop.errors import FieldError, RequestError, field_error
from shop.models import RuleSet
from shop.queries.families import families, uncharged_fees
from shop.services.rules import add_rules, refusal

OF_ROW = re.compile(r"([a-z_.]+)\[(\d+)\]\.?(\w*)")
OF_SKILL = {name: column for column, name in SKILL_MAPS.items()}


@dataclass(frozen=True, slots=True)
class ProposedRules:
    """Rules that can be used, the day from which they would apply, and their differences from the set before."""

    base: RuleSet | None
    rules: dict[str, Any]
    valid_from: date
    changes: tuple[RuleChange, ...]


def propose(*, actor: Actor, change: Mapping[str, Any], today: date) -> ProposedRules:
    """The rules that a change would make. Nothing is written.

    Refuses with the field of the request: a day before today, a figure that cannot be used, rules that lack something.
    Refuses `rules-changed-meanwhile` if another set than `base` is in force on the day.
    """
    day = change["valid_from"]
    if day < today:
        raise field_error("/valid_from", "rules_day_past")
    base = rules_on(actor.shop, day)
    if (base.pk if base else None) != change["base"]:
        raise RequestError(409, "rules-changed-meanwhile", number=base.number if base else 0)
    before = base.rules if base else {}
    rules = _changed(actor, before, change)
    if problem := refusal(rules):
        raise RequestError(400, "invalid", (_field(problem, change),))
    _refuse_unknown_families(actor, before, rules, change)
    changes = difference(before, rules, actor.shop.exponent) if base else ()
    return ProposedRules(base, rules, day, changes)


@transaction.atomic
def change_rules(*, actor: Actor, change: Mapping[str, Any], today: date) -> RuleSet:
    """Writes the next set. Refuses `rules-unchanged` where nothing differs."""
    proposed = propose(actor=actor, change=change, today=today)
    if proposed.base is not None and not proposed.changes:
        raise RequestError(409, "rules-unchanged")
    verb = "restored" if "again" in change else "changed"
    return add_rules(actor=actor, rules=proposed.rules, valid_from=proposed.valid_from, verb=verb)


def _changed(actor: Actor, before: Mapping[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    if "again" in change:
        try:
            earlier: RuleSet = rule_set(actor, change["again"])
        except Http404:
            raise field_error("/again", "not_yours") from None
        return dict(earlier.rules)
    if "part" in change:
        if unknown := unknown_fields(change["part"]):
            raise field_error("/part", "rule_part_unknown", names=", ".join(unknown))
        before = merged(before, change["part"])
    figures, tables = change.get("figures", {}), change.get("tables", {})
    try:
        return with_figures(before, figures, tables, actor.shop.exponent)
    except CalculationError as problem:
        path, _, place = problem.culprit.partition("/")
        where = f"/tables/{path}/{place}" if place or path in tables else f"/figures/{path}"
        raise RequestError(400, "invalid", (FieldError(where, problem.code),)) from None


def _refuse_unknown_families(
    actor: Actor, before: Mapping[str, Any], rules: Mapping[str, Any], change: Mapping[str, Any]
) -> None:
    """Refuses a fee that would never be charged. An earlier set is restored as it was."""
    if "again" in change or rules.get("fees") == before.get("fees"):
        return
    stored = families(actor)
    for at, family in uncharged_fees(rules.get("fees", ()), before.get("fees", ()), stored):
        where = f"/tables/fees/{at}/per" if "fees" in change.get("tables", {}) else "/part"
        raise field_error(where, "fee_family_unknown", family=family, families=", ".join(stored))


def _field(problem: CalculationError, change: Mapping[str, Any]) -> FieldError:
    """The refusal of the rules as a whole, at the figure or at the cell of a table."""
    if problem.code != "bad_rules":
        return FieldError("/tables/taxes", problem.code, {"what": problem.culprit})
    path, _, fault = problem.culprit.partition(": ")
    key = "rule_needed" if fault == "missing" else "rule_refused"
    where = "/part" if "part" in change else _pointer(path, change.get("tables", {}))
    return FieldError(where, key, {"what": path, "fault": fault})


def _pointer(path: str, tables: Mapping[str, list[Row]]) -> str:
    """The JSON pointer of a path that `Rules` refuses, such as `fees[1].fluid` or `labour_rates.mechanical`."""
    if cell := OF_ROW.fullmatch(path):
        table, at, column = cell.groups()
        return f"/tables/{table}/{at}/{column}".rstrip("/")
    name, _, row = path.partition(".")
    if name in OF_SKILL:
        skills = [typed.get("skill") for typed in tables.get("labour", ())]
        at = str(skills.index(row)) if row in skills else ""
        return f"/tables/labour/{at}/{OF_SKILL[name]}" if at else "/tables/labour"
    field = FIELDS.get(path)
    return f"/tables/{path}" if field and field.kind == "table" else f"/figures/{path}"
