#!/usr/bin/env bash
# with-postgres.sh COMMAND...   Runs COMMAND with DATABASE_URL naming a PostgreSQL of its own, which goes when it ends.
# It listens on a Unix socket only, so two runs never meet. As root it is run by the postgres account.
# PGLOCALE is en_US.UTF-8, as an ordinary server has it, where "C" hides mistakes with sorting; PGLOCALE=C.UTF-8 is the other.
set -euo pipefail

binaries=${PGBIN:-$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -1)}
[ -n "$binaries" ] && [ -x "$binaries/initdb" ] || {
  echo "with-postgres: the PostgreSQL server is missing; run: apt-get install postgresql" >&2
  exit 3
}
home=$(mktemp -d /tmp/kwpg.XXXXXX) # kept short: a socket path may have 107 bytes
owner() { "$@"; }
if [ "$(id -u)" = 0 ]; then
  chown postgres: "$home"
  owner() { runuser -u postgres -- "$@"; }
fi
chmod 755 "$home"

clear_away() {
  code=$?
  trap - EXIT INT TERM
  owner "$binaries/pg_ctl" -D "$home/data" -m immediate -w stop >/dev/null 2>&1 || true
  rm -rf "$home"
  exit "$code"
}
trap clear_away EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

locale=${PGLOCALE:-en_US.UTF-8}
if [ "$locale" = en_US.UTF-8 ]; then
  mkdir "$home/locale" # made here: the machine need not have it
  # 1 says that something was only warned of.
  localedef -i en_US -f UTF-8 "$home/locale/en_US.UTF-8" >"$home/locale.log" 2>&1 || [ $? = 1 ] || {
    echo "with-postgres: en_US.UTF-8 could not be made; run: apt-get install locales" >&2
    exit 3
  }
  [ -e "$home/locale/en_US.UTF-8/LC_COLLATE" ] || { cat "$home/locale.log" >&2; exit 3; }
  export LOCPATH=$home/locale
fi
owner "$binaries/initdb" -D "$home/data" -U app -A trust -E UTF8 --locale="$locale" --no-sync \
  >"$home/initdb.log" 2>&1 || {
  cat "$home/initdb.log" >&2
  exit 1
}
owner mkdir "$home/s"
chmod 777 "$home/s"
# Nothing here outlives the run, so nothing waits for the disk.
owner "$binaries/pg_ctl" -D "$home/data" -l "$home/server.log" -w -t 30 -o "-c listen_addresses='' \
  -c unix_socket_directories=$home/s -c max_connections=60 -c timezone=UTC \
  -c fsync=off -c synchronous_commit=off -c full_page_writes=off" start >/dev/null || {
  cat "$home/server.log" >&2
  exit 1
}
"$binaries/createdb" -h "$home/s" -U app app
DATABASE_URL="postgres://app@/app?host=$home/s" PGHOST="$home/s" PGUSER=app PGDATABASE=app "$@"
