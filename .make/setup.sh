#!/usr/bin/env bash
# setup.sh serve|test|drills   Makes a clone ready. What has not changed since the last run is left alone.
set -euo pipefail
. "$(dirname "$0")/common.sh"

TO_SERVE="python3-venv ca-certificates libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz0b libharfbuzz-subset0
  fontconfig fonts-dejavu-core libatomic1"
# The headless shell draws the same pages with half the work of the whole browser.
TO_TEST="systemd poppler-utils chromium-headless-shell|chromium postgresql locales"

TO_DRILL="nginx-light|nginx openssl"

installed() { [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$1" 2>/dev/null)" = "ii " ]; }

# a|b is there when one of them is.
missing_packages() {
  local wanted name
  for wanted in "$@"; do
    for name in ${wanted//|/ }; do
      if installed "$name"; then continue 2; fi
    done
    printf '%s ' "$wanted"
  done
}

# Of a|b the first that this Debian has.
to_be_had() {
  local wanted name
  for wanted in "$@"; do
    for name in ${wanted//|/ }; do
      if apt-cache show "$name" >/dev/null 2>&1; then break; fi
    done
    printf '%s ' "$name"
  done
}

# Lists everything that is missing at once if it may not be installed.
may_install() {
  local missing
  missing=$(missing_packages "$@")
  [ -n "$missing" ] && [ "$(id -u)" != 0 ] || return 0
  command -v sudo >/dev/null && sudo -n true 2>/dev/null ||
    fail "system packages are missing; run: sudo apt-get install $(to_be_had $missing)"
}

install_missing() {
  local missing as=()
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0
  [ "$(id -u)" = 0 ] || as=(sudo)
  say "Installing system packages: $missing"
  "${as[@]}" apt-get update -qq -o DPkg::Lock::Timeout=400
  "${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    -o DPkg::Lock::Timeout=400 $(to_be_had $missing) >>"$VAR/apt.log" 2>&1 ||
    fail "apt-get failed; see var/apt.log"
}

# system_packages FIRST LATER   Packages that only tests need are installed while the rest is made ready.
system_packages() {
  later=
  if ! command -v dpkg-query >/dev/null; then
    say "This is not Debian: install $*, or what they are called here."
    return
  fi
  may_install $1 $2
  install_missing $1
  install_missing $2 &
  later=$!
}

# The system's own Python before another one on the path: distributions build theirs with profiles, and the tests take
# an eighth less time with it.
python_to_use() {
  local python
  for python in /usr/bin/python3 python3; do
    if "$python" -c 'import ensurepip, sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
      echo "$python"
      return
    fi
  done
  fail "Python 3.11 or newer with its venv module is needed as python3"
}

python_packages() {
  if [ -x "$PYTHON" ] && fresh python requirements-dev.txt .make/uv.txt; then return; fi
  if [ ! -x "$PYTHON" ]; then
    local python
    python=$(python_to_use)
    say "Making the virtual environment in .venv"
    "$python" -m venv .venv
  fi
  say "Installing the Python packages (about 10 s)"
  "$PYTHON" -m pip install -q --disable-pip-version-check --require-hashes -r .make/uv.txt
  .venv/bin/uv pip sync -q --require-hashes --system-certs --python "$PYTHON" requirements-dev.txt
  done_with python requirements-dev.txt .make/uv.txt
}

node_packages() {
  if [ -d frontend/node_modules ] && fresh node frontend/package-lock.json frontend/package.json; then return; fi
  [ ! -L frontend/node_modules ] || fail "frontend/node_modules is a link, and installing would empty the folder it leads to;
  remove the link (rm frontend/node_modules), then run this again"
  say "Installing the front end's packages (about 10 s)"
  (cd frontend && npm ci --no-progress --loglevel=error)
  done_with node frontend/package-lock.json frontend/package.json
}

front_end() {
  local sources=(frontend/src frontend/build frontend/public frontend/index.html frontend/vite.config.ts
    frontend/package-lock.json)
  if [ -f frontend/dist/index.html ] && fresh build "${sources[@]}"; then return; fi
  say "Building the front end (about 5 s)"
  (cd frontend && npm run --silent build -- --logLevel warn)
  done_with build "${sources[@]}"
}

case ${1:-test} in
  serve) system_packages "$TO_SERVE" "" ;;
  test) system_packages "$TO_SERVE" "$TO_TEST" ;;
  drills) system_packages "$TO_SERVE" "$TO_TEST $TO_DRILL" ;;
  *) fail "setup.sh takes serve, test or drills" ;;
esac
python_packages
use_node
node_packages
front_end
[ -z "$later" ] || wait "$later"
