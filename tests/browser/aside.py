"""Makes a costly set-up once a run: keeps a copy of its database, and restores it for each test that begins with it."""

import pickle
import sqlite3
from collections.abc import Callable
from typing import Any, TypeVar

from django.db import connection

T = TypeVar("T")
_aside: dict[Callable[[], Any], tuple[sqlite3.Connection, bytes]] = {}


def begin(make: Callable[[], T]) -> T:
    """Runs `make` on an empty database once, keeps that database aside and restores it for later tests; its result."""
    connection.ensure_connection()
    if make not in _aside:
        value = make()
        copy = sqlite3.connect(":memory:")
        connection.connection.backup(copy)
        _aside[make] = copy, pickle.dumps(value)
    copy, answer = _aside[make]
    copy.backup(connection.connection)
    answer_value: T = pickle.loads(answer)
    return answer_value
