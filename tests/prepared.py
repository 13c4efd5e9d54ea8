"""Rows that many tests begin with. A process makes them once and later runs the same statements again.

Most of the time to make them goes into building queries.
"""

from collections.abc import Callable, Hashable
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any, TypeVar

from django.db import connection, transaction
from django.utils import timezone

Made = TypeVar("Made")
WRITES = ("INSERT", "UPDATE", "DELETE")


@dataclass
class Preparation:
    """The result of making something from `given`, and the statements that wrote it."""

    given: tuple[Any, ...]
    made: Any = None
    statements: list[tuple[str, Any, bool]] = field(default_factory=list)

    def note(self, execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
        if sql.startswith(WRITES):
            self.statements.append((sql, params, many))
        return execute(sql, params, many, context)

    def repeat(self) -> None:
        with transaction.atomic(), connection.cursor() as cursor:
            for sql, params, many in self.statements:
                (cursor.executemany if many else cursor.execute)(sql, params)

    def copy_for(self, given: tuple[Any, ...]) -> Any:
        """A copy that holds what the test has where this one holds what it was made from."""
        return deepcopy(self.made, {id(mine): theirs for mine, theirs in zip(self.given, given, strict=True)})


_preparations: dict[Hashable, Preparation] = {}


def prepared(make: Callable[..., Made], *given: Any) -> Made:
    """`make(*given)`, which keeps nothing outside the database. Given are plain values and what is prepared itself.

    Made again in each hour of the clock, which a test may have set: `make` may write what time it is.
    """
    hour = timezone.now().replace(minute=0, second=0, microsecond=0)
    key = (make, hour, *(each.shop.pk if hasattr(each, "shop") else each for each in given))
    if key in _preparations:
        _preparations[key].repeat()
    else:
        preparation = Preparation(given)
        with connection.execute_wrapper(preparation.note):
            preparation.made = make(*given)
        _preparations[key] = preparation
    made: Made = _preparations[key].copy_for(given)
    return made
