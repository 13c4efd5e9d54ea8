"""A compiled query returns what the queryset of its function returns; a function whose SQL depends on a value is
refused.
"""

import sys
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from inspect import signature
from typing import Any, get_origin
from uuid import UUID, uuid4

import pytest
from django.db import connection
from django.db.models import QuerySet
from django.test.utils import CaptureQueriesContext

from shop import urls
from shop.compiled import CompiledQuery, CompiledQueryError, compiled
from shop.models import Customer
from tests.cast import Cast
from tests.factories import CustomerFactory

OURS = ("shop", "kitting", "quotes")
LENGTHS = (1, 2, 4)  # of tuples of ids, which need not be filled up


def every_compiled_query() -> Iterator[CompiledQuery[Any, Any]]:
    """The compiled queries of all modules that the addresses import, with those in a mapping."""
    assert urls
    for name, module in sorted(sys.modules.items()):
        if name.split(".")[0] in OURS:
            for item in vars(module).values():
                items = item.values() if isinstance(item, dict) else (item,)
                yield from (item for item in items if isinstance(item, CompiledQuery))


def values_for(build: Callable[..., Any], length: int) -> list[Any]:
    """Other values for each call, of the types that the function names."""
    random: dict[Any, Callable[[], Any]] = {
        UUID: uuid4,
        str: lambda: uuid4().hex,
        date: lambda: date(2026, 1, 1) + timedelta(days=uuid4().int % 500),
    }
    kinds = [parameter.annotation for parameter in signature(build).parameters.values()]
    return [tuple(uuid4() for _ in range(length)) if get_origin(kind) is tuple else random[kind]() for kind in kinds]


def sql_of(read: Callable[[], Any]) -> list[str]:
    with CaptureQueriesContext(connection) as queries:
        read()
    return [query["sql"] for query in queries]


def test_each_asks_what_its_queryset_asks(db: None) -> None:
    queries = list(every_compiled_query())
    assert len(queries) > 20
    for query in queries:
        for length in (*LENGTHS, *LENGTHS):
            values = values_for(query.build, length)
            as_built = sql_of(lambda query=query, values=values: list(query.build(*values)))
            assert sql_of(lambda query=query, values=values: query(*values)) == as_built, query.build


@compiled
def by_id(shop: UUID, ids: tuple[UUID, ...]) -> QuerySet[Customer]:
    return Customer.objects.filter(shop=shop, pk__in=ids).select_related("shop").order_by("name")


def test_it_reads_the_rows_of_any_number_of_ids(cast: Cast, django_assert_num_queries: Any) -> None:
    rows = [CustomerFactory(shop=cast.shop, name=f"Customer {n}") for n in range(6)]
    for number in range(6):
        ids = tuple(row.pk for row in rows[:number])
        with django_assert_num_queries(1):
            read = by_id(cast.shop.pk, ids)
            assert [row.shop.name for row in read] == [cast.shop.name] * number
        assert read == rows[:number] and by_id(cast.elsewhere.pk, ids) == []


def test_a_query_whose_sql_depends_on_a_value_is_refused(db: None) -> None:
    @compiled
    def by_words(shop: UUID, words: str) -> QuerySet[Customer]:
        return Customer.objects.filter(shop=shop, name__contains=words)

    with pytest.raises(CompiledQueryError, match="value 1"):
        by_words(uuid4(), "Oldacre")
