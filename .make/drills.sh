#!/usr/bin/env bash
# The long drills, on SQLite and then on PostgreSQL, what make test runs on SQLite alone, the calculations with all
# their examples, and every seeded fault. Every step runs, whatever the earlier said.
# Arguments go to pytest, and then only the drills are run: .make/drills.sh -k killed
set -uo pipefail
. "$(dirname "$0")/common.sh"
. "$(dirname "$0")/steps.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only} DRILLS=1
use_node

tests "drills on SQLite" "$PYTHON" -m pytest -q -s --show-capture=no -m drill "$@"
tests "drills on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q -s --show-capture=no \
  -m "drill and not browser" "$@"
if [ $# = 0 ]; then
  tests "every test on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q -n auto \
    -m "not browser and not bench and not drill" --ignore=tests/browser
  tests "calculations with all examples" "$PYTHON" -m pytest -q -n auto tests/calc
  tests "seeded faults" .make/faults.sh
fi
summary
