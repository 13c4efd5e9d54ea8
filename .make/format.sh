#!/usr/bin/env bash
set -euo pipefail
. "$(dirname "$0")/common.sh"
use_node
.venv/bin/ruff check --fix .
.venv/bin/ruff format .
cd frontend && npm run --silent format
