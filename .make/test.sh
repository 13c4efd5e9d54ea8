#!/usr/bin/env bash
# Everything that must hold before a change goes in. Every step runs, whatever the earlier ones said.
set -uo pipefail
. "$(dirname "$0")/common.sh"
. "$(dirname "$0")/steps.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
bin=$ROOT/.venv/bin
# Each core runs a share of the tests on a database of its own.
shared=(-n auto --dist worksteal)
front() { (cd frontend && "$@"); }

step "ruff check" "$bin/ruff" check .
step "ruff format" "$bin/ruff" format --check .
step "mypy" "$bin/mypy"
step "biome" front npm run --silent lint
step "svelte-check" front npm run --silent check
step "vitest" front npm run --silent test
step "OpenAPI document is current" "$PYTHON" manage.py openapi --check
step "migrations are current" "$PYTHON" manage.py makemigrations --check --dry-run
tests "pytest on SQLite" "$PYTHON" -m pytest -q "${shared[@]}"
# Pure calculations and the rules of the tree know no database: once is enough.
tests "pytest on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q "${shared[@]}" \
  -m "not browser and not bench and not drill" --ignore=tests/calc --ignore=tests/security --ignore=tests/drills \
  --ignore-glob='*/imports/test_[derv]*' --ignore-glob='*/architecture/test_[!r]*'

summary
