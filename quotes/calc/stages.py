"""The labour of a quote by install stage: the sums shown above a stage's operations."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.priced import PricedOperation

_NUMBER = re.compile(r"\d+[.)]?\s+(?=\S)")


@dataclass(frozen=True, slots=True)
class StageSum:
    """The sum of one stage; `name` is empty for work without a stage. `codes` are its operations in order of work."""

    name: str
    hours: Decimal
    price: Decimal
    codes: tuple[str, ...]


def bare(stage: str) -> str:
    """The stage's name without the number from a kit's template: a quote merges several templates."""
    return _NUMBER.sub("", stage, count=1) if _NUMBER.match(stage) else stage


def stage_sums(operations: Iterable[PricedOperation], stages: Mapping[str, str]) -> tuple[StageSum, ...]:
    """One sum per stage, in the order of its first operation. Together they are the labour of the quote."""
    groups: dict[str, list[PricedOperation]] = {}
    for operation in operations:
        groups.setdefault(bare(stages.get(operation.code, "")), []).append(operation)
    return tuple(
        StageSum(
            name,
            sum((operation.hours for operation in group), Decimal(0)),
            sum((operation.price for operation in group), Decimal(0)),
            tuple(operation.code for operation in group),
        )
        for name, group in groups.items()
    )
