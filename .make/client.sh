#!/usr/bin/env bash
# client.sh [FOLDER]   Generates a typed Python client from frontend/openapi.json; into var/client unless told where.
set -euo pipefail
. "$(dirname "$0")/common.sh"
folder=${1:-$VAR/client}
.venv/bin/openapi-python-client generate --path frontend/openapi.json --config .make/client.yaml --meta setup \
  --output-path "$folder" --overwrite --fail-on-warning
