#!/usr/bin/env bash
# Everything that must hold before a change goes in. Every step runs, whatever the earlier ones said.
set -uo pipefail
. "$(dirname "$0")/common.sh"
. "$(dirname "$0")/steps.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
bin=$ROOT/.venv/bin
# Runs share the cores. Each process of a run has a database of its own and collects the tests by itself.
cores=$(nproc)
half=()
[ "$cores" -lt 4 ] || half=(-n $((cores / 2)) --dist worksteal)
front() { (cd frontend && "$@"); }

back_checks() {
  step "ruff check" "$bin/ruff" check .
  step "ruff format" "$bin/ruff" format --check .
  step "mypy" "$bin/mypy"
  step "OpenAPI document is current" "$PYTHON" manage.py openapi --check
  step "migrations are current" "$PYTHON" manage.py makemigrations --check --dry-run
}

front_checks() {
  step "biome" front npm run --silent lint
  step "svelte-check" front npm run --silent check
  step "vitest" front npm run --silent test
}

quotes_on_sqlite() {
  tests "pytest of quotes on SQLite" "$PYTHON" -m pytest -q "${half[@]}" tests/quotes
}

requests_on_sqlite() {
  tests "pytest of requests on SQLite" "$PYTHON" -m pytest -q "${half[@]}" tests/api tests/door tests/security
}

# All but what has a step of its own.
on_sqlite() {
  tests "pytest on SQLite" "$PYTHON" -m pytest -q "${half[@]}" --ignore=tests/quotes --ignore=tests/api --ignore=tests/door \
    --ignore=tests/security --ignore=tests/browser --ignore=tests/drills --ignore=tests/calc --ignore=tests/architecture
}

without_a_database() {
  tests "pytest of calculations and structure" "$PYTHON" -m pytest -q "${half[@]}" tests/calc tests/architecture
}

# Only what asks the database (tests/conftest.py); the short drills once are enough.
on_postgres() {
  tests "pytest on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q "${half[@]}" \
    -m "not browser and not bench and not drill" --ignore=tests/drills --ignore=tests/calc --ignore=tests/browser
}

in_browser() {
  tests "pytest in a browser" "$PYTHON" -m pytest -q -n "$cores" --dist worksteal tests/browser
}

short_drills() {
  tests "pytest of the short drills" "$PYTHON" -m pytest -q tests/drills
}

# The longest first and the last ones short, so that the runners end together. A browser and a server wait much, and the others work meanwhile.
share in_browser quotes_on_sqlite on_postgres on_sqlite requests_on_sqlite without_a_database front_checks back_checks short_drills

summary
