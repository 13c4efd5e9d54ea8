"""Compares the skills of operations with the labour rates of price rules. A skill without a rate cannot be quoted.

All findings are only to be checked: rules and operations come in two files, in either order.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from difflib import get_close_matches
from zoneinfo import ZoneInfo

from django.db.models import Count
from django.utils import timezone

from shop.access import Actor, rules_on
from shop.calc.rules import Rules
from shop.imports.labour_plan import ImportedOperation
from shop.models import Operation
from shop.tables.findings import Finding, please_check


def skills_without_rate(actor: Actor, operations: Iterable[ImportedOperation]) -> Iterator[Finding]:
    """A finding for each skill of a list of operations that the rules in force have no rate for, at its first cell.

    None in a shop without rules: there their import compares the two.
    """
    rule_set = rules_on(actor.shop, _today(actor))
    if rule_set is None:
        return
    rates = Rules.from_json(rule_set.rules).labour_rates
    firsts: dict[str, ImportedOperation] = {}
    for operation in operations:
        firsts.setdefault(operation.skill, operation)
    for skill, operation in firsts.items():
        if skill and skill not in rates:
            similar = ", ".join(get_close_matches(skill, sorted(rates), n=3))
            code = "skill_like" if similar else "skill_without_rate"
            yield please_check(code, operation.row.at("skill"), what=skill, meant=similar)


def rates_missing(actor: Actor, rates: Mapping[str, str]) -> Iterator[Finding]:
    """A finding for each skill of the shop's operations that these labour rates leave out."""
    operations = Operation.objects.filter(shop=actor.shop).values("skill").annotate(n=Count("pk")).order_by("skill")
    for row in operations:
        if row["skill"] not in rates:
            yield please_check("rate_missing", what=row["skill"], n=row["n"])


def _today(actor: Actor) -> date:
    return timezone.now().astimezone(ZoneInfo(actor.shop.zone)).date()
