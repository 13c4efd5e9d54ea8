"""The ceiling of work on a job that needs no consent, by the rule frozen with the quote that opened it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from quotes.calc.ceiling import CeilingCheck, CeilingInput, CeilingRule, judge_ceiling

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class AcceptedChange:
    """The total of an accepted change, and whether the workshop went ahead with it without asking."""

    gross: Decimal
    unasked: bool


def frozen_rule(ceiling: Mapping[str, Any]) -> CeilingRule:
    """The rule of a frozen text, in which `share` is in percent. Older texts have no floor, cap and maximum."""
    figures = {name: Decimal(ceiling[name]) for name in ("floor", "cap", "maximum") if ceiling.get(name) is not None}
    if ceiling["kind"] == "amount":
        amount = Decimal(ceiling["amount"])
        return CeilingRule("banded", percent=NOTHING, floor=amount, cap=amount)
    return CeilingRule(ceiling["kind"], percent=Decimal(ceiling["share"]), **figures)


def job_ceiling(
    document: Mapping[str, Any], changes: Iterable[AcceptedChange] = (), extra: Decimal = NOTHING
) -> CeilingCheck | None:
    """The ceiling of a job and what is left of it; None for a text from before there were ceilings.

    `document` is the frozen text of the quote that opened the job, `extra` the change in question. Work that the
    customer agreed to uses nothing of it, unless the ceiling is a maximum of the whole job. A change that costs less
    gives nothing back.
    """
    ceiling = document["rules"].get("ceiling")
    if ceiling is None:
        return None
    rule = frozen_rule(ceiling)
    used = sum((max(change.gross, NOTHING) for change in changes if change.unasked or rule.kind == "maximum"), NOTHING)
    return judge_ceiling(
        CeilingInput(
            rule=rule,
            agreed=Decimal(document["shown"]["totals"]["gross"]),
            used=used,
            extra=max(extra, NOTHING),
            exponent=document["shop"]["exponent"],
        )
    )
