# Read by every script here: the folder, the language of messages, and the Node to use.
cd "$(dirname "${BASH_SOURCE[0]}")/.."
ROOT=$PWD
VAR=$ROOT/var
PYTHON=$ROOT/.venv/bin/python
mkdir -p "$VAR/stamps"
export PYTHONUNBUFFERED=1 npm_config_update_notifier=false
unset PYTHONDONTWRITEBYTECODE # else every process compiles Django again

say() { printf '%s\n' "$*"; }
fail() {
  printf 'kitwright: %s\n' "$*" >&2
  exit 1
}

# A system Node that the build tools accept, else the one in the virtual environment.
node_fits() {
  command -v node >/dev/null && command -v npm >/dev/null &&
    node -e 'const [a, b] = process.versions.node.split(".").map(Number)
             process.exit((a === 20 && b >= 19) || (a === 22 && b >= 12) || a >= 24 ? 0 : 1)'
}
use_node() { node_fits || PATH=$ROOT/.venv/bin:$PATH; }

# fresh NAME FILE...: true if these files are unchanged since `done_with NAME FILE...` was last called.
mark_of() { find "$@" -type f -print0 2>/dev/null | sort -z | xargs -0 sha256sum | sha256sum | cut -c1-32; }
fresh() {
  local name=$1
  shift
  [ "$(cat "$VAR/stamps/$name" 2>/dev/null)" = "$(mark_of "$@")" ]
}
done_with() {
  local name=$1
  shift
  mark_of "$@" >"$VAR/stamps/$name"
}
