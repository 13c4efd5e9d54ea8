#!/usr/bin/env bash
set -euo pipefail
. "$(dirname "$0")/common.sh"
export SECRET_KEY=${SECRET_KEY:-read-by-checks-only}
use_node
"$PYTHON" manage.py openapi
cd frontend && npm run --silent api
