"""Works out from a shop's rows which steps of the guided start are done."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from kitting.models import Kit
from quotes.models import Revision
from shop.access import rules_on
from shop.models import Member, Operation, RuleSet, Shop
from shop.queries.calendar import opening_hours
from shop.rule_presets import has_own_rates


@dataclass(frozen=True, slots=True)
class StartStep:
    code: str
    done: bool
    later: bool


def start_steps(shop: Shop, day: date) -> tuple[StartStep, ...]:
    """The steps in the order in which they are best done. `day` is the shop's today."""
    rules = rules_on(shop, day)
    done: dict[str, Callable[[], bool]] = {
        "hours": lambda: opening_hours(shop, day) is not None,
        "rates": lambda: rules is not None and has_own_rates(rules.rules),
        "taxes": lambda: rules is not None and _is_taxed(rules),
        "people": lambda: Member.objects.filter(shop=shop, active=True)[:2].count() > 1,
        "kit": lambda: Kit.objects.filter(shop=shop).exists(),
        "labour": lambda: Operation.objects.filter(shop=shop).exists(),
        "quote": lambda: Revision.objects.filter(shop=shop, sent_at__isnull=False).exists(),
    }
    return tuple(StartStep(code, is_done(), code in shop.later_steps) for code, is_done in done.items())


def _is_taxed(rules: RuleSet) -> bool:
    """Returns whether any tax is above 0 %. Those of a preset are not."""
    return any(Decimal(tax["rate"]) > 0 for tax in rules.rules.get("taxes", ()))
