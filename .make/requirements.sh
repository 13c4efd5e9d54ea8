#!/usr/bin/env bash
# Pins the newest versions that requirements*.in allow, with hashes and without addresses.
set -euo pipefail
. "$(dirname "$0")/common.sh"
compile() {
  .venv/bin/uv pip compile -q --universal --generate-hashes --no-header --system-certs --python-version 3.11 "$@"
}
compile requirements.in -o requirements.txt
compile requirements-dev.in -c requirements.txt -o requirements-dev.txt
