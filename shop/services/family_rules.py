"""Renames a family of consumables in the price rules."""

from datetime import date

from shop.access import Actor, rules_on
from shop.calc.rule_changes import with_family_renamed
from shop.errors import RequestError
from shop.models import RuleSet
from shop.queries.families import families
from shop.queries.rule_sets import in_force
from shop.services.rules import add_rules


def follow_family(*, actor: Actor, old: str, new: str, agreed: bool, today: date) -> None:
    """Adds sets of rules in which fees and ways of charging name the family by its new name.

    Concerns the set in force and those that come later, unless another consumable still is of the old family. Refuses
    `family-in-rules` unless the person agreed: what names the old family would not be charged any more. To be called
    in the transaction that renames it.
    """
    if old == new or old in families(actor):
        return
    current = rules_on(actor.shop, today)
    later = RuleSet.objects.filter(shop=actor.shop, pk__in=in_force(actor.shop, today).later)
    standing = [*([current] if current else []), *later.order_by("valid_from")]
    moved = [(row, with_family_renamed(row.rules, old, new)) for row in standing]
    moved = [(row, rules) for row, rules in moved if rules != row.rules]
    if moved and not agreed:
        raise RequestError(409, "family-in-rules", family=old, new=new, fees=_named(moved[0][0], old))
    for row, rules in moved:
        add_rules(actor=actor, rules=rules, valid_from=max(today, row.valid_from), verb="changed")


def _named(row: RuleSet, family: str) -> str:
    """The titles of the fees on the family; the family itself where only a way of charging names it."""
    titles = [fee["title"] for fee in row.rules.get("fees", ()) if fee.get("per") == family]
    return ", ".join(titles) or family
