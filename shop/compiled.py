"""Queries whose SQL is built once a process: Django takes longer to build the SQL of a wide join than to run it."""

from collections.abc import Callable
from copy import copy
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from typing import Any, Generic, ParamSpec, TypeVar
from uuid import UUID, uuid4

from django.db import connections
from django.db.models import QuerySet
from django.db.models.sql.compiler import SQLCompiler

P = ParamSpec("P")
Row = TypeVar("Row")
Value = UUID | date | str
Write = Callable[[Any], Any]
Converters = dict[int, tuple[list[Callable[..., Any]], Any]]  # position of a column -> how its values are read

NO_ROW = UUID(int=0)  # no row has this id


class CompiledQueryError(TypeError):
    """The SQL of the query depends on one of its values and does not only contain it, so it cannot be kept."""


@dataclass(frozen=True, slots=True)
class BuiltSql:
    """A query, the compiler that has built its SQL, and the value behind each parameter."""

    rows: QuerySet[Any, Any]
    compiler: SQLCompiler
    converters: Converters
    sql: str
    parameters: tuple[Any, ...]
    places: dict[int, tuple[int, Write]]  # position of a parameter -> number of the value and how it is written

    def fetch(self, values: list[Value]) -> list[Any]:
        """Runs the SQL with these values."""
        parameters = list(self.parameters)
        for position, (number, write) in self.places.items():
            parameters[position] = write(values[number])
        rows = self.rows.all()
        rows.query.get_compiler = partial(self._compiler, tuple(parameters))  # type: ignore[method-assign]
        return list(rows)

    def _compiler(self, parameters: tuple[Any, ...], using: str, **_: Any) -> SQLCompiler:
        """A compiler for Django's iterables, which neither builds the SQL nor looks up converters again."""
        compiler = copy(self.compiler)
        compiler.connection = connections[using]
        compiler.as_sql = lambda *_, **__: (self.sql, parameters)  # type: ignore[method-assign]
        compiler.get_converters = lambda _: self.converters  # type: ignore[assignment]
        return compiler


class CompiledQuery(Generic[P, Row]):
    """A function that builds a queryset from ids, days and texts, and from tuples of ids. Its call returns the rows.

    All values have to be given by position. A tuple is filled up to a power of two, so that few lengths are built.
    """

    def __init__(self, build: Callable[P, QuerySet[Any, Row]]) -> None:
        self.build, self.__doc__ = build, build.__doc__
        self._built: dict[tuple[object, ...], BuiltSql] = {}

    def __call__(self, *values: P.args, **_: P.kwargs) -> list[Row]:
        filled = [_filled_up(value) if isinstance(value, tuple) else value for value in values]
        shape = tuple(len(value) if isinstance(value, tuple) else type(value) for value in filled)
        if shape not in self._built:
            self._built[shape] = self._build_sql(filled)
        return self._built[shape].fetch(_flat(filled))

    def first(self, *values: P.args, **none: P.kwargs) -> Row | None:
        """The first row; None if there is none."""
        rows = self(*values, **none)
        return rows[0] if rows else None

    def _build_sql(self, values: list[Any]) -> BuiltSql:
        """Builds the SQL with unique marker values, and finds the parameters in which they appear."""
        placeholders = [
            tuple(map(_placeholder, value)) if isinstance(value, tuple) else _placeholder(value) for value in values
        ]
        rows = self.build(*placeholders)  # type: ignore[arg-type, call-arg]
        compiler = rows.query.get_compiler(using=rows.db)
        sql, parameters = compiler.as_sql()
        places = {}
        for number, placeholder in enumerate(_flat(placeholders)):
            positions = [
                (at, write) for at, parameter in enumerate(parameters) if (write := _written(placeholder, parameter))
            ]
            if not positions:
                raise CompiledQueryError(f"value {number} is no parameter of {sql}")
            places.update({at: (number, write) for at, write in positions})
        converters = compiler.get_converters([column for column, *_ in compiler.select])
        return BuiltSql(rows, compiler, converters, sql, tuple(parameters), places)


def compiled(build: Callable[P, QuerySet[Any, Row]]) -> CompiledQuery[P, Row]:
    """Decorates a function whose SQL has the same form for all values."""
    return CompiledQuery(build)


def _filled_up(ids: tuple[UUID, ...]) -> tuple[UUID, ...]:
    """At least one id, and their number a power of two."""
    length = 1 << max(len(ids) - 1, 0).bit_length()
    return (*ids, *(NO_ROW for _ in range(length - len(ids))))


def _flat(values: list[Any]) -> list[Value]:
    return [single for value in values for single in (value if isinstance(value, tuple) else (value,))]


def _placeholder(value: Value) -> Value:
    random = uuid4()
    if isinstance(value, UUID):
        return random
    return random.hex if isinstance(value, str) else date.min + timedelta(days=random.int % 700_000)


def _same(value: Any) -> Any:
    return value


def _hex(value: UUID) -> str:
    return value.hex


WRITERS: dict[type, tuple[Write, ...]] = {UUID: (_same, _hex), date: (_same, str), str: (_same,)}
"""The ways in which the adapters of our databases write a value."""


def _written(placeholder: Value, parameter: Any) -> Write | None:
    """The way in which the parameter was written from the placeholder; None if it is another value."""
    for write in WRITERS[type(placeholder)]:
        written = write(placeholder)
        if type(written) is type(parameter) and written == parameter:
            return write
    return None
