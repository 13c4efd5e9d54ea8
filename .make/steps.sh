# Read by the scripts that run several steps: each step runs whatever the earlier ones said, and a summary ends it.
passed=0
failed=()
times=()
counts=()

step() {
  local title=$1 began=$SECONDS code=0
  shift
  say "== $title"
  "$@" || code=$?
  times+=("$(printf '%5d s  %s' $((SECONDS - began)) "$title")")
  if [ $code = 0 ]; then passed=$((passed + 1)); else failed+=("$title"); fi
}

# The last line of each run stands again in the summary.
tests() {
  local title=$1
  shift
  step "$title" logged "$@"
  counts+=("$title: $(tail -n 1 "$VAR/step.log")")
}
logged() { "$@" 2>&1 | tee "$VAR/step.log"; }

# Fails when a step has failed.
summary() {
  say ""
  printf '%s\n' "${times[@]}" "${counts[@]}"
  local title
  for title in "${failed[@]}"; do say "failed: $title"; done
  say "steps: $passed passed, ${#failed[@]} failed"
  [ ${#failed[@]} = 0 ]
}
