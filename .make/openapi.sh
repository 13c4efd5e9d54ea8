#!/usr/bin/env bash
set -euo pipefail
. "$(dirname "$0")/common.sh"
use_node
"$PYTHON" manage.py openapi
cd frontend && npm run --silent api
