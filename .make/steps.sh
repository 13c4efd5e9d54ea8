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

# Functions that run steps, at the same time; what they say stands one after the other, the first as it comes.
at_once() {
  local first=$1 row
  shift
  for row in "$@"; do "$row" >"$VAR/$row.log" 2>&1 & done
  "$first"
  wait
  for row in "$@"; do cat "$VAR/$row.log"; done
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
