#!/usr/bin/env bash
# The long drills, on SQLite and then on PostgreSQL, and every seeded fault. Every step runs, whatever the earlier said.
# Arguments go to pytest, and then the faults are left out: .make/drills.sh -k killed
set -uo pipefail
. "$(dirname "$0")/common.sh"
. "$(dirname "$0")/steps.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node

tests "drills on SQLite" "$PYTHON" -m pytest -q -s --show-capture=no -m drill "$@"
tests "drills on PostgreSQL" .make/with-postgres.sh "$PYTHON" -m pytest -q -s --show-capture=no \
  -m "drill and not browser" "$@"
[ $# != 0 ] || tests "seeded faults" .make/faults.sh
summary
