"""Rule sets: the next one is added, none is changed once a quote was begun with it."""

from datetime import date
from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.calc.document import Document
from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from shop.calc.tax import total_document
from shop.models import RuleSet, Shop
from shop.services import history
from shop.services.clean import clean


def newest_rules(shop: Shop) -> RuleSet | None:
    return RuleSet.objects.filter(shop=shop).order_by("-number").first()


def refusal(rules: dict[str, Any]) -> CalculationError | None:
    """The refusal by `Rules`, or by the calculation of taxes; None if the rules can be used."""
    try:
        read = Rules.from_json(rules)
        total_document(Document(lines=(), taxes=tuple(named.tax for named in read.taxes), exponent=2))
    except CalculationError as problem:
        return problem
    return None


@transaction.atomic
def add_rules(*, actor: Actor, rules: dict[str, Any], valid_from: date, verb: str = "imported") -> RuleSet:
    """The next rule set. The newest stands if it is the same, so that a file can be imported twice."""
    newest = newest_rules(actor.shop)
    if newest is not None and (newest.rules, newest.valid_from) == (rules, valid_from):
        return newest
    row = RuleSet(shop=actor.shop, number=newest.number + 1 if newest else 1, valid_from=valid_from, rules=rules)
    clean((row,))
    row.save(force_insert=True)
    history.record(actor=actor, verb=verb, row=row)
    return row
