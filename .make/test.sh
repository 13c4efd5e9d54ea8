#!/usr/bin/env bash
# Everything that must hold before a change goes in. Every step runs, whatever the earlier ones said.
set -uo pipefail
. "$(dirname "$0")/common.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
bin=$ROOT/.venv/bin
passed=0
failed=()
times=()

step() {
  local title=$1 began=$SECONDS code=0
  shift
  say "== $title"
  "$@" || code=$?
  times+=("$(printf '%5d s  %s' $((SECONDS - began)) "$title")")
  if [ $code = 0 ]; then passed=$((passed + 1)); else failed+=("$title"); fi
}
front() { (cd frontend && "$@"); }

step "ruff check" "$bin/ruff" check .
step "ruff format" "$bin/ruff" format --check .
step "mypy" "$bin/mypy"
step "biome" front npm run --silent lint
step "svelte-check" front npm run --silent check
step "vitest" front npm run --silent test
step "OpenAPI document is current" "$PYTHON" manage.py openapi --check
step "migrations are current" "$PYTHON" manage.py makemigrations --check --dry-run
step "pytest on SQLite" "$PYTHON" -m pytest -q
step "pytest on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q -m "not browser and not bench"

say ""
printf '%s\n' "${times[@]}"
for title in "${failed[@]}"; do say "failed: $title"; done
say "steps: $passed passed, ${#failed[@]} failed"
[ ${#failed[@]} = 0 ]
