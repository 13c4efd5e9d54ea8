"""Rows that are made once for the tests of a module. What a test writes itself is undone after it, as always."""

from collections.abc import Callable, Iterator
from typing import Any, TypeVar
from unittest.mock import patch

from django.db import transaction
from django.test import override_settings

from shop.documents import pdf
from tests.paper import set_nothing

Made = TypeVar("Made")
CHEAP = {
    "PASSWORD_HASHERS": ["django.contrib.auth.hashers.MD5PasswordHasher"],
    "STORAGES": {
        "default": {"BACKEND": "django.core.files.storage.InMemoryStorage"},
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    },
}


def made_once(blocker: Any, make: Callable[[], Made]) -> Iterator[Made]:
    """For a fixture of the module's scope: `yield from made_once(django_db_blocker, make)`.

    All lies in one transaction, in which each test's own is a savepoint. A test must not change the objects it gets.
    What is made is as cheap as in a test: the fixtures that see to that there come later than a module's.
    """
    with override_settings(**CHEAP):
        with blocker.unblock(), patch.object(pdf, "render", set_nothing):
            whole = transaction.atomic()
            whole.__enter__()
            try:
                made = make()
            except BaseException:
                transaction.set_rollback(True)
                whole.__exit__(None, None, None)
                raise
        yield made
        with blocker.unblock():
            transaction.set_rollback(True)
            whole.__exit__(None, None, None)
