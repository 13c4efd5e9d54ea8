"""Rows that many tests begin with. A process makes them once and later runs the same statements again.

Most of the time to make them goes into building queries.
"""

from collections.abc import Callable, Hashable, Iterator
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any, TypeVar

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import connection, transaction
from django.utils import timezone

from shop.models import PersonSession

Made = TypeVar("Made")
WRITES = ("INSERT", "UPDATE", "DELETE")
CLOCK = timezone.now


@dataclass
class Preparation:
    """The result of making something from `given`, and the statements that wrote it."""

    given: tuple[Any, ...]
    made: Any = None
    statements: list[tuple[str, Any, bool]] = field(default_factory=list)
    files: dict[str, bytes] = field(default_factory=dict)

    def note(self, execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
        if sql.startswith(WRITES):
            self.statements.append((sql, params, many))
        return execute(sql, params, many, context)

    def repeat(self) -> None:
        with transaction.atomic(), connection.cursor() as cursor:
            for sql, params, many in self.statements:
                (cursor.executemany if many else cursor.execute)(sql, params)
        for name, content in self.files.items():
            default_storage.save(name, ContentFile(content))

    def copy_for(self, arguments: tuple[Any, ...]) -> Any:
        """A copy that holds what the test has where this one holds what it was made from."""
        return deepcopy(self.made, {id(own): other for own, other in zip(self.given, arguments, strict=True)})


@dataclass
class Watch:
    """Notes whether a test has written anything itself, and the steps done before that. A sign-in does not count."""

    written: bool = False
    done: tuple[Hashable, ...] = ()

    def note(self, execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
        self.written |= sql.startswith(WRITES) and PersonSession._meta.db_table not in sql
        return execute(sql, params, many, context)


_preparations: dict[Hashable, Preparation] = {}


def prepared(make: Callable[..., Made], *arguments: Any, after: Hashable = ()) -> Made:
    """`make(*given)`, which keeps nothing but rows and files. Given are plain values and what is prepared itself.

    `after` names what the rows stand on that is not given. Made again in each hour, and for each instant that a test
    sets the clock to: `make` may write what time it is.
    """
    now = timezone.now()
    at = now.replace(minute=0, second=0, microsecond=0) if timezone.now is CLOCK else now
    key = (make, at, after, *(argument.shop.pk if hasattr(argument, "shop") else argument for argument in arguments))
    if key in _preparations:
        _preparations[key].repeat()
    else:
        preparation = Preparation(arguments)
        with connection.execute_wrapper(preparation.note):
            before = set(_files())
            preparation.made = make(*arguments)
        preparation.files = {name: default_storage.open(name).read() for name in {*_files()} - before}
        _preparations[key] = preparation
    value: Made = _preparations[key].copy_for(arguments)
    return value


def _files(folder: str = "") -> Iterator[str]:
    folders, names = default_storage.listdir(folder)
    yield from (f"{folder}{name}" for name in names)
    for path in folders:
        yield from _files(f"{folder}{path}/")
