#!/usr/bin/env bash
# The long drills, on SQLite and then on PostgreSQL. Arguments go to pytest: .make/drills.sh -k killed
set -euo pipefail
. "$(dirname "$0")/common.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
"$PYTHON" -m pytest -q -s -m drill "$@"
.make/with-postgres.sh "$PYTHON" -m pytest -q -s -m "drill and not browser" "$@"
