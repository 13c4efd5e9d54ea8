#!/usr/bin/env bash
# Seeded faults: each is made in a copy of the tree, and the tests have to notice. Arguments: the calculations to try, else all.
set -euo pipefail
. "$(dirname "$0")/common.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
exec "$PYTHON" -m tests.faults "$@"
