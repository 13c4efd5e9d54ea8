#!/usr/bin/env bash
# serve.sh         Brings the demonstration's database up to date, loads it if it is empty, serves, says how to sign in.
# serve.sh own     The same with the workshop's own database, which has a folder of its own and begins empty.
set -euo pipefail
. "$(dirname "$0")/common.sh"
HOST=127.0.0.1
PORT=${PORT:-8000}
WHOSE=${1:-demonstration}
[ "$WHOSE" != own ] || export VAR_DIR=${VAR_DIR:-$VAR/own}
DATA=${VAR_DIR:-$VAR}

"$PYTHON" - "$HOST" "$PORT" <<'PY' || fail "port $PORT is taken; choose another, for example: make demo PORT=8001"
import socket, sys
with socket.socket() as door:
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((sys.argv[1], int(sys.argv[2])))
    except OSError:
        sys.exit(1)
PY

if [ -z "${SECRET_KEY:-}" ] && [ "$WHOSE" != own ]; then # the workshop's own key is made by its settings
  [ -s "$VAR/secret-key" ] || (
    umask 077
    "$PYTHON" -c 'import secrets; print(secrets.token_urlsafe(48))' >"$VAR/secret-key"
  )
  SECRET_KEY=$(cat "$VAR/secret-key")
  export SECRET_KEY
fi

# Plain HTTP on this machine only: a browser may refuse Secure cookies here.
export SECURE_COOKIES=${SECURE_COOKIES:-false}

say "Bringing the database up to date"
"$PYTHON" manage.py migrate --noinput -v 0
if ! fresh "static-$WHOSE" frontend/dist requirements.txt || [ ! -d "$DATA/static/app" ]; then
  say "Collecting the static files"
  "$PYTHON" manage.py collectstatic --noinput -v 0
  done_with "static-$WHOSE" frontend/dist requirements.txt
fi
if [ "$WHOSE" != own ] && "$PYTHON" .make/is_empty.py; then
  say "Loading the demonstration (two shops; this is done once)"
  bash fixtures/demo/load.sh
fi

"$PYTHON" manage.py serve --listen "$HOST:$PORT" &
server=$!
stop() {
  trap - EXIT INT TERM
  kill -TERM $server 2>/dev/null || true
  wait $server 2>/dev/null || true
  say "Stopped."
  exit "${1:-0}"
}
trap 'stop 0' INT TERM
trap 'stop $?' EXIT

"$PYTHON" - "$HOST" "$PORT" $server <<'PY' || fail "the server did not come up; its last words are above"
import os, sys, time, urllib.error, urllib.request
host, port, pid = sys.argv[1], sys.argv[2], int(sys.argv[3])
for _ in range(300):
    try:
        urllib.request.urlopen(f"http://{host}:{port}/", timeout=2)
        sys.exit(0)
    except urllib.error.HTTPError as problem:
        sys.exit(f"it answers {problem.code}")
    except OSError:
        time.sleep(0.1)
    try:
        os.kill(pid, 0)
    except OSError:
        break
sys.exit(1)
PY

say ""
say "Kitwright is at http://$HOST:$PORT/"
if [ "$WHOSE" = own ]; then
  say "Its data is in $DATA. Commands of manage.py need VAR_DIR=$DATA before them."
  if "$PYTHON" .make/is_empty.py; then
    say "There is no workshop yet: open yours there, with the code that is printed above."
  fi
elif [ -f fixtures/demo/open.py ]; then
  "$PYTHON" fixtures/demo/accounts.py "http://$HOST:$PORT" # leaves a shop with jobs alone, so it comes first
  "$PYTHON" fixtures/demo/open.py "http://$HOST:$PORT"
fi
say "Ctrl-C stops it."
wait $server
