"""The price rules of a draft: those it was begun with, until a person chooses the newer ones."""

from django.utils import timezone

from quotes.models import Revision
from quotes.queries.pricing import shop_day
from shop.access import rules_on
from shop.calc.rules import Rules
from shop.errors import field_error
from shop.models import RuleSet

FIELDS = ("rules", "rules_before")


def freeze(rules: RuleSet) -> None:
    """Freezes a rule set for good, on its first use."""
    if rules.used_at is None:
        RuleSet.objects.filter(pk=rules.pk, used_at=None).update(used_at=timezone.now())


def price_by(revision: Revision, number: int) -> None:
    """Sets the draft's rules to the set in force today, or back to its earlier set. Refuses any other."""
    if number == revision.rules.number:
        return
    in_force = rules_on(revision.shop, shop_day(revision.shop, timezone.now()))
    if number != revision.rules_before and (in_force is None or number != in_force.number):
        raise field_error("/rules", "rules_not_offered")
    rules = RuleSet.objects.get(shop=revision.shop, number=number)
    freeze(rules)
    revision.rules_before, revision.rules = revision.rules.number, rules


def check_tax_class(revision: Revision, tax_class: str) -> None:
    """Refuses a class that the draft's rules do not offer to a line: it would be untaxed without anybody's choice."""
    classes = Rules.from_json(revision.rules.rules).line_classes()
    if tax_class not in classes:
        raise field_error("/tax_class", "unknown_tax_class", known=", ".join(classes))


def labour_class(revision: Revision, skill: str) -> str:
    """The tax class of the skill's labour. Refuses a skill that the draft's rules do not have."""
    rules = Rules.from_json(revision.rules.rules)
    if skill not in rules.labour_rates:
        raise field_error("/skill", "unknown_skill", known=", ".join(rules.labour_rates))
    return rules.labour_class(skill)


def check_condition(revision: Revision, *, chosen: bool) -> None:
    """Refuses a newly chosen condition that the rules do not know; resets one chosen earlier to "none"."""
    rules = Rules.from_json(revision.rules.rules)
    if chosen and revision.condition not in rules.condition_factors:
        raise field_error("/condition", "unknown_condition", known=", ".join(rules.condition_factors))
    revision.condition = rules.known_condition(revision.condition)
