"""Rows that are made once for the tests of a module. What a test writes itself is undone after it, as always."""

from collections.abc import Callable, Iterator
from typing import Any, TypeVar
from unittest.mock import patch

from django.db import transaction

from shop.documents import pdf
from tests.paper import set_nothing

Made = TypeVar("Made")


def made_once(blocker: Any, make: Callable[[], Made]) -> Iterator[Made]:
    """Serves a fixture of the module's scope: `yield from made_once(django_db_blocker, make)`.

    All lies in one transaction, in which each test's own is a savepoint. A test must not change the objects it gets.
    Pages are not really set, as in a test that is not marked `paper`.
    """
    with blocker.unblock(), patch.object(pdf, "render", set_nothing):
        whole = transaction.atomic()
        whole.__enter__()
        try:
            value = make()
        except BaseException:
            transaction.set_rollback(True)
            whole.__exit__(None, None, None)
            raise
    yield value
    with blocker.unblock():
        transaction.set_rollback(True)
        whole.__exit__(None, None, None)
