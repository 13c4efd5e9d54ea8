#!/usr/bin/env bash
set -euo pipefail
. "$(dirname "$0")/common.sh"
exec "$PYTHON" manage.py makemigrations "$@"
