# Read by the scripts that run several steps: each step runs whatever the earlier ones said, and a summary ends it.
results=$VAR/steps.txt
: >"$results"

step() {
  local title=$1 began=$SECONDS code=0 how=passed
  shift
  say "== $title"
  "$@" || code=$?
  [ $code = 0 ] || how=failed
  printf '%s\t%5d s  %s\n' "$how" $((SECONDS - began)) "$title" >>"$results"
}

# The last line of each run stands again in the summary.
tests() {
  local title=$1
  shift
  local log=$VAR/${title// /-}.log
  step "$title" logged "$log" "$@"
  printf 'count\t%s: %s\n' "$title" "$(tail -n 1 "$log")" >>"$results"
}
logged() {
  local log=$1
  shift
  "$@" 2>&1 | tee "$log"
}

# Three runners share functions that run steps: each takes the next as soon as it is free. The output of each step stays together.
share() {
  local runner
  printf '%s\n' "$@" >"$VAR/waiting.txt"
  rm -rf "$VAR/taking"
  for runner in 1 2 3; do run_what_waits & done
  wait
}
run_what_waits() {
  local next
  while next=$(take_next) && [ -n "$next" ]; do
    "$next" >"$VAR/$next.log" 2>&1
    cat "$VAR/$next.log"
  done
}
take_next() {
  until mkdir "$VAR/taking" 2>/dev/null; do sleep 0.1; done # a folder can be made by one alone
  head -n 1 "$VAR/waiting.txt"
  sed -i 1d "$VAR/waiting.txt"
  rmdir "$VAR/taking"
}

# Fails when a step has failed, or when none ran.
summary() {
  say ""
  grep -E '^(passed|failed)' "$results" | cut -f 2
  grep '^count' "$results" | cut -f 2
  grep '^failed' "$results" | sed 's/.* s  /failed: /'
  local passed failed
  passed=$(grep -c '^passed' "$results")
  failed=$(grep -c '^failed' "$results")
  say "steps: $passed passed, $failed failed"
  [ "$failed" = 0 ] && [ "$passed" != 0 ]
}
