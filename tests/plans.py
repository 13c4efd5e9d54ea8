"""The cost of a query: its plan on both databases, and the exact number of steps on SQLite."""

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.apps import apps
from django.db import connection

from shop.models import ChangeNumber, Member
from shop.rows import ShopRow

Select = tuple[str, Any]  # SQL and its parameters

# A shop has one row of these for each kind of change, for ever: PostgreSQL rightly reads so few from end to end.
NEVER_GROWS = {ChangeNumber._meta.db_table}
# The members of a shop are as many as its people, and are listed all together.
FEW_IN_A_SHOP = {Member._meta.db_table}
TABLES = {model._meta.db_table for model in apps.get_models() if issubclass(model, ShopRow)} - NEVER_GROWS
ALIAS = re.compile(r'(?:FROM|JOIN) "(\w+)" "?([A-Z]\d+)"?')
SCAN = re.compile(r"SCAN (\w+)")
BY_SHOP_ALONE = re.compile(r"SEARCH (\w+) USING (?:COVERING )?INDEX \w+ \(shop_id=\?\)$")
SORT = "USE TEMP B-TREE FOR ORDER BY"
WHOLE = ("enable_seqscan", "enable_hashjoin", "enable_mergejoin")
READS = ("Seq Scan", "Index Scan", "Index Only Scan")
# PostgreSQL reads a page or two in any way it likes; SQLite, which does not look at sizes, judges these tables.
GROWN = "SELECT relname FROM pg_class WHERE relkind = 'r' AND reltuples >= 50"


@contextmanager
def selects() -> Iterator[list[Select]]:
    """Every SELECT that is executed inside, before its driver has seen it."""
    executed: list[Select] = []

    def keep(execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        if sql.lstrip().upper().startswith("SELECT"):
            executed.append((sql, params))
        return execute(sql, params, many, context)

    with connection.execute_wrapper(keep):
        yield executed


@contextmanager
def steps() -> Iterator[list[int]]:
    """Hundreds of steps that SQLite's virtual machine takes inside, whatever the load of the machine.

    PostgreSQL counts none.
    """
    count = [0]
    if connection.vendor != "sqlite":
        yield count
        return

    def step() -> int:
        count[0] += 1
        return 0

    connection.ensure_connection()
    connection.connection.set_progress_handler(step, 100)
    try:
        yield count
    finally:
        connection.connection.set_progress_handler(None, 0)


def scans(select: Select) -> list[str]:
    """Tables of a shop that the plan reads from end to end.

    To read all rows of the shop and sort them for a page counts as such a scan, for it grows in the same way.
    """
    return _sqlite_scans(*select) if connection.vendor == "sqlite" else _postgres_scans(*select)


def _sqlite_scans(sql: str, params: Any) -> list[str]:
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN QUERY PLAN {sql}", params)
        details = [row[3] for row in cursor.fetchall()]
    tables = {alias: table for table, alias in ALIAS.findall(sql)}
    pattern = [SCAN, BY_SHOP_ALONE] if SORT in details and "LIMIT" in sql else [SCAN]
    read = ((matched, detail) for detail in details for regex in pattern if (matched := regex.match(detail)))
    looked_at = ((tables.get(matched[1], matched[1]), matched, detail) for matched, detail in read)
    return [
        detail
        for table, matched, detail in looked_at
        if table in TABLES and not (matched.re is BY_SHOP_ALONE and table in FEW_IN_A_SHOP)
    ]


def _postgres_scans(sql: str, params: Any) -> list[str]:
    with connection.cursor() as cursor:
        # A small table is read whole, and rightly so. Without these choices the plan shows what a large one will get.
        for choice in WHOLE:
            cursor.execute(f"SET LOCAL {choice} = off")
        cursor.execute(f"EXPLAIN (FORMAT JSON) {sql}", params)
        plan = cursor.fetchone()[0]
        for choice in WHOLE:
            cursor.execute(f"SET LOCAL {choice} = on")
        cursor.execute(GROWN)
        grown = TABLES.intersection(name for (name,) in cursor.fetchall())
    plan = json.loads(plan) if isinstance(plan, str) else plan
    return [*_unconditional(plan[0]["Plan"], grown)]


def _unconditional(node: dict[str, Any], tables: set[str]) -> Iterator[str]:
    """Nodes that read one of these tables with no condition that an index answers."""
    if node["Node Type"] in READS and "Index Cond" not in node and node.get("Relation Name") in tables:
        yield f"{node['Node Type']} on {node['Relation Name']}"
    for below in node.get("Plans", ()):
        yield from _unconditional(below, tables)
