"""Reads the rows for pricing a change: the items that it takes off, and those that the job is charged for already."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from quotes.calc.quote_input import TakenLine
from quotes.models import Revision
from quotes.queries.changes import agreed_job, chosen_off
from shop.calc.rules import Rules
from shop.models import Operation
from shop.queries.steps import standing_steps


@dataclass(frozen=True, slots=True)
class ChangeRows:
    """`rules` are the job's without what is charged once a visit. `sold_hours` are those of the steps that stand."""

    rules: Rules
    taken: tuple[TakenLine, ...]
    kits: int
    sold_hours: Mapping[str, Decimal]


def read_change(revision: Revision, rules: Rules) -> ChangeRows:
    """Reads what the job has been agreed to hold, for a draft of a change to it."""
    agreed = agreed_job(revision.quote.job_id, revision.shop_id)
    taken = agreed.taken(chosen_off(revision))
    off = {line.item for line in taken if line.kind == "labour"}
    steps = standing_steps(revision.shop_id, revision.quote.job_id).exclude(operation=None)
    once = steps.filter(operation__sharing=Operation.Sharing.ONCE).values_list("operation__code", "quoted_hours")
    sold = {code: hours for code, hours in once if f"labour:{code}" not in off}
    return ChangeRows(_for_a_change(rules, agreed.supplies), taken, agreed.kits, sold)


def _for_a_change(rules: Rules, supplies: Decimal) -> Rules:
    """The job's rules without minimum charge, deposit and fees per quote, and with the rest of the supplies' cap."""
    capped = rules.supplies
    if capped is not None and capped.cap is not None:
        capped = replace(capped, cap=max(capped.cap - supplies, Decimal(0)))
    return replace(
        rules,
        minimum_hours=Decimal(0),
        deposit=None,
        fees=tuple(fee for fee in rules.fees if fee.per != "quote"),
        supplies=capped,
    )
