#!/usr/bin/env bash
# format.sh   Formats both halves, even if ruff finds faults, and lists at the end the faults to mend by hand.
set -uo pipefail
. "$(dirname "$0")/common.sh"
use_node
failed=0
.venv/bin/ruff check --fix-only --quiet . || failed=1
.venv/bin/ruff format . || failed=1
(cd frontend && npm run --silent format) || failed=1
.venv/bin/ruff check . || failed=1
exit $failed
