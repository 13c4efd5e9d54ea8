"""The PostgreSQL database of a backup: pg_dump's custom format of the snapshot whose rows were counted."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from django.db import connection, transaction

from shop.backups.manifest import BackupError, sync_to_disk

NAME = "database.dump"
# Drops our tables and functions in the same transaction that loads the backup.
CLEARED = """DO $$ DECLARE named record; BEGIN
FOR named IN SELECT tablename FROM pg_tables WHERE schemaname = '{schema}' LOOP
EXECUTE format('DROP TABLE IF EXISTS %I.%I CASCADE', '{schema}', named.tablename); END LOOP;
FOR named IN SELECT p.oid::regprocedure AS name FROM pg_proc p WHERE p.pronamespace = '{schema}'::regnamespace
AND NOT EXISTS (SELECT 1 FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e') LOOP
EXECUTE format('DROP FUNCTION IF EXISTS %s CASCADE', named.name); END LOOP; END $$"""
COUNTED = """DO $$ BEGIN IF (SELECT count(*) FROM "{table}") <> {rows:d} THEN
RAISE EXCEPTION '{table} has not {rows:d} rows'; END IF; END $$"""


def dump_database(target: Path) -> tuple[dict[str, int], dict[str, int], str]:
    """Writes the dump. Returns ({table: rows}, {shop: epoch}, schema), all of the same snapshot."""
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        cursor.execute("SELECT pg_export_snapshot(), current_schema()")
        snapshot, schema = cursor.fetchone()
        _run(
            "pg_dump",
            "-Fc",
            "--no-owner",
            "--no-privileges",
            f"--snapshot={snapshot}",
            f"--schema={schema}",
            f"--file={target}",
        )
        cursor.execute("SELECT tablename FROM pg_tables WHERE schemaname = current_schema()")
        counts = {}
        for (table,) in cursor.fetchall():
            cursor.execute(f'SELECT count(*) FROM "{table}"')
            counts[table] = cursor.fetchone()[0]
        cursor.execute("SELECT id::text, log_epoch FROM shop_shop")
        shops = dict(cursor.fetchall())
    target.chmod(0o600)
    sync_to_disk(target)
    return counts, shops, schema


def load_database(part: Path, schema: str, counts: Mapping[str, int], statements: Iterable[str]) -> None:
    """Loads the dump, checks its rows and runs the statements, in a single transaction."""
    if connection.connection is not None and _others():
        raise BackupError("The database is in use. Stop the server first.")
    connection.close()
    with tempfile.TemporaryDirectory(prefix="kitwright-") as folder:  # for its owner only
        script = Path(folder) / "restore.sql"
        _run("pg_restore", "--no-owner", "--no-privileges", f"--file={script}", str(part), database=False)
        first = ["SET lock_timeout = '30s'", CLEARED.format(schema=schema)]
        last = [f'SET search_path TO "{schema}"', *(COUNTED.format(table=t, rows=n) for t, n in counts.items())]
        whole_script = script.with_name("all.sql")
        with whole_script.open("w") as file, script.open() as dumped:
            file.write(";\n".join(first) + ";\n")
            for line in dumped:
                if not line.startswith("CREATE SCHEMA "):
                    file.write(line)
            file.write(";\n".join([*last, *statements]) + ";\n")
        _run("psql", "-X", "-q", "-1", "-v", "ON_ERROR_STOP=1", "-o", "/dev/null", "-f", str(whole_script))


def _others() -> int:
    """The number of other connections to the database."""
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() "
            "AND pid <> pg_backend_pid() AND backend_type = 'client backend'"
        )
        return int(cursor.fetchone()[0])


def _run(tool: str, *arguments: str, database: bool = True) -> None:
    environment, target = dict(os.environ), []
    if database:
        conninfo, password = _conninfo()
        target = ["-d", conninfo]
        if password:
            environment["PGPASSWORD"] = password
    result = subprocess.run([_tool(tool), *target, *arguments], env=environment, capture_output=True, text=True)
    if result.returncode:
        raise BackupError(f"{tool}: {result.stderr.strip() or f'ended with {result.returncode}'}")


def _tool(name: str) -> str:
    installed = [str(path) for path in Path("/usr/lib/postgresql").glob(f"*/bin/{name}")]
    newest = max(installed, key=lambda path: int(path.split("/")[-3].split(".")[0]), default=None)
    program = newest or shutil.which(name)
    if program is None:
        raise BackupError(f"{name} is missing. Install PostgreSQL's client tools (apt-get install postgresql-client).")
    return program


def _conninfo() -> tuple[str, str]:
    from psycopg import conninfo, pq

    parameters: dict[str, Any] = connection.get_connection_params()
    option_names = {option.keyword.decode() for option in pq.Conninfo.get_defaults()}
    facts = {name: value for name, value in parameters.items() if name in option_names and value not in (None, "")}
    password = str(facts.pop("password", ""))
    facts.pop("client_encoding", None)
    return conninfo.make_conninfo(**facts), password
