#!/usr/bin/env bash
# The measurements: each prints what it measured, and fails where a ratio or a growth is past its bound.
set -euo pipefail
. "$(dirname "$0")/common.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
exec "$PYTHON" -m pytest -q -s -m bench
