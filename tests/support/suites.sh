# The list of suites and how one is run and counted. Read by tests/run, which says what a suite is.
# Kept apart so that tests/run stays a page: what is asked for, set up, run, added up.

names=()              # every suite, in the order of running
declare -A tier       # ordinary or deep
declare -A needs      # words: node, sanitized/TARGET, or targets of the release tree
declare -A command_of # the command line
declare -A broken     # tree or node -> why it cannot be used
left_out=()
total_passed=0
total_failed=0
void=0

add_suite() { # NAME TIER NEEDS COMMAND
  names+=("$1")
  tier[$1]="$2"
  needs[$1]="$3"
  command_of[$1]="$4"
}

# A suite that is a file: its needs stand in the file.
add_script() { # NAME TIER FILE
  local wants
  wants=$(sed -n 's/^# needs: *//p;T;q' "$3")
  wants=" ${wants:-programs} "
  wants=${wants/ nothing / }
  add_suite "$1" "$2" "${wants/ programs / quarterbreath quarterbreath-lab }" "$(printf %q "$3")"
}

# A suite that is a test program of ours; without sources it is left out, and that is said.
add_program() { # NAME FOLDER NEEDS COMMAND
  if find "$root/tests/$2" -name '*.cpp' 2>/dev/null | grep -q .; then
    add_suite "$1" ordinary "$3" "$4"
  elif [ "${#wanted[@]}" -eq 0 ]; then
    left_out+=("$1 (there is no source in tests/$2)")
  fi
}

find_suites() {
  local file folder name release='"$root"/build/release' sanitized='"$root"/build/sanitized'
  local catch='"$root"/tests/support/catch_suite' bench='"$root"/tests/support/bench_suite'
  # The folder rules goes first: it is quick and its messages are the plainest.
  for file in "$root"/tests/rules/run "$root"/tests/rules/run_*; do
    [ -f "$file" ] && add_script "$(suite_name "$file")" ordinary "$file"
  done
  add_program unit unit qb_tests "$catch unit $release/qb_tests"
  add_program unit-sanitized unit sanitized/qb_tests "$catch unit-sanitized $sanitized/qb_tests"
  add_program property property qb_property "$catch property $release/qb_property"
  add_program property-sanitized property sanitized/qb_property \
    "QB_CASES=20 $catch property-sanitized $sanitized/qb_property"
  add_program bench bench qb_bench "$bench bench $release/qb_bench"
  for file in "$root"/tests/*/run "$root"/tests/*/run_* "$root"/tests/outside/*/run; do
    case "$file" in "$root"/tests/rules/*) continue ;; esac
    [ -f "$file" ] && add_script "$(suite_name "$file")" ordinary "$file"
  done
  for file in "$root"/tests/*/deep_*; do
    [ -f "$file" ] && add_script "$(suite_name "$file")" deep "$file"
  done
  [ "${#wanted[@]}" -eq 0 ] || return
  for folder in faults window outside fuzz docs; do
    name=" ${names[*]} "
    [[ "$name" == *" $folder"[-\ ]* ]] || left_out+=("$folder (there is no tests/$folder/run)")
  done
}

# tests/outside/ajv/run and tests/outside/run_ajv are both outside-ajv; tests/window/run is window,
# and tests/bare/deep_run is bare.
suite_name() { # FILE
  local name=${1#"$root/tests/"}
  name=${name/\/run_//}
  name=${name/\/deep_//}
  name=${name%/run}
  printf '%s' "${name//\//-}"
}

is_suite() { # PATTERN
  local name
  for name in "${names[@]}"; do [[ "$name" == $1 ]] && return 0; done
  return 1
}

# True when this run was asked for the suite: a suite of the deep tier by --deep or by its name.
is_wanted() { # NAME
  local pattern
  [ "${#wanted[@]}" -eq 0 ] && { [ "$deep" -eq 1 ] || [ "${tier[$1]}" != deep ]; return; }
  for pattern in "${wanted[@]}"; do
    [ "$1" = "$pattern" ] && return 0
    [[ "$1" == $pattern ]] && { [ "$deep" -eq 1 ] || [ "${tier[$1]}" != deep ]; } && return 0
  done
  return 1
}

# True when a suite of the deep tier is in this run.
is_any_deep() {
  local name
  for name in "${names[@]}"; do
    [ "${tier[$name]}" = deep ] && is_wanted "$name" && return 0
  done
  return 1
}

# True when a suite of this run needs `node`, the `sanitized` tree or the `release` tree.
is_needed() { # WHAT
  local name word
  [ "${#wanted[@]}" -eq 0 ] && return 0
  for name in "${names[@]}"; do
    is_wanted "$name" || continue
    for word in ${needs[$name]}; do
      case "$word" in
        node | sanitized/*) [ "${word%/*}" = "$1" ] && return 0 ;;
        *) [ "$1" = release ] && return 0 ;;
      esac
    done
  done
  return 1
}

# The packages of tests/outside, unpacked into build/node when their list has changed. They come
# through the network while the trees are built; await_node waits for them.
begin_node() {
  command -v npm >/dev/null || install_packages "${node_packages[@]}"
  unpack_node 9>&- &
  node_pid=$!
}

unpack_node() {
  local folder="$root/build/node" list
  list=$(cd "$root/tests/outside" && cat package.json package-lock.json ../../.npmrc | sha256sum)
  [ "$(cat "$folder/.installed" 2>/dev/null)" = "$list" ] && return
  say "installing the packages of tests/outside (log: build/log/node.log)"
  rm -rf "$folder"
  mkdir -p "$folder"
  cp "$root"/tests/outside/package{,-lock}.json "$root/.npmrc" "$folder"
  # What this machine trusts, npm trusts as well: node has a list of its own.
  if [ -f /etc/ssl/certs/ca-certificates.crt ]; then
    export NODE_EXTRA_CA_CERTS="${NODE_EXTRA_CA_CERTS:-/etc/ssl/certs/ca-certificates.crt}"
  fi
  (cd "$folder" && npm ci --ignore-scripts --no-progress) >"$log_folder/node.log" 2>&1 &&
    printf '%s\n' "$list" >"$folder/.installed"
}

await_node() {
  wait "$node_pid" && return
  broken[node]="npm could not install: $(grep -m1 -i 'err' "$log_folder/node.log")"
  broken[node]+="; see build/log/node.log"
  say "${broken[node]}"
}

# Builds a tree with its tests; a failure is said once here and told by each suite that needs it.
build_for_tests() { # TREE [NAME=VALUE...]
  local tree="$1" settings=(CMAKE_BUILD_TYPE=Release QB_TESTS=ON "${@:2}")
  if configure_tree "$tree" "${settings[@]}" && build_tree "$tree"; then
    count "build-$tree" 1 0 ""
    return
  fi
  broken[$tree]="$(first_error "$tree")"
  count "build-$tree" 0 1 "${broken[$tree]} (whole log: build/log/$tree.log)"
}

# True when TARGET of TREE is there and not older than its sources.
is_fresh() { # TREE TARGET
  [ -z "${broken[$1]:-}" ] && [ -f "$root/build/$1/$2" ] && return 0
  ninja -C "$root/build/$1" -n "$2" 2>/dev/null | grep -q '^ninja: no work to do'
}

# Why a suite cannot run; nothing when it can.
obstacle() { # NAME
  local word tree target
  for word in ${needs[$1]}; do
    case "$word" in
      node)
        [ -n "${broken[node]:-}" ] && printf 'node packages: %s' "${broken[node]}" && return
        continue ;;
      sanitized/*) tree=sanitized target="${word#*/}" ;;
      *) tree=release target="$word" ;;
    esac
    [ "$target" = qb_unit ] && target=qb_tests
    is_fresh "$tree" "$target" ||
      { printf '%s is not built from what is here: build/log/%s.log' "$target" "$tree"; return; }
  done
}

# Prints a suite's line and adds it up.
count() { # NAME PASSED FAILED REMARK
  printf '%-24s %d passed, %d failed   %s\n' "$1" "$2" "$3" "$4"
  total_passed=$((total_passed + $2))
  total_failed=$((total_failed + $3))
}

# Makes an empty folder for that suite and prints it. What readers of files and pages write lies in
# memory where there is room: they wait for the disk and prove nothing by it. So it is with killed
# programs, since what a process has written outlives it there too. Suites of power cuts, of full
# disks, syncing and speed keep a real disk. build/scratch leads to either.
work_folder() { # NAME
  local folder="$root/build/scratch/$1" memory room=0
  memory="/dev/shm/quarterbreath-$(id -u)-$(printf %s "$root" | cksum | cut -d' ' -f1)/$1"
  rm -rf "$folder" "$memory"
  case "$1" in
    outside* | docs* | faults | unit* | property*)
      room=$(df -k --output=avail /dev/shm 2>/dev/null | tail -n 1)
      ;;
  esac
  if [ "${room:-0}" -gt 1000000 ] && mkdir -p -m 700 "$memory" 2>/dev/null; then
    mkdir -p "$root/build/scratch"
    ln -s "$memory" "$folder"
    printf '%s' "$memory"
  else
    mkdir -p "$folder"
    printf '%s' "$folder"
  fi
}

# Runs a command as a suite; sets passed, failed, remark and the seconds of processor it took, and
# writes the log.
measure() { # NAME COMMAND
  local log="$log_folder/$1.log" status last limit=1500 user system TIMEFORMAT='%0U %0S'
  [ "${tier[$1]:-}" = deep ] || [ "$deep" -eq 1 ] && limit=14400
  QB_WORK=$(work_folder "$1")
  export QB_WORK
  { time {
    timeout -k 10 "$limit" bash -c "root=$(printf %q "$root"); $2" >"$log" 2>&1 </dev/null
  } 2>/dev/null; } 2>"$log_folder/$1.time" # the shell's own word on a crash: see the remark below
  status=$?
  read -r user system <"$log_folder/$1.time"
  processor=$((user + system))
  last=$(tail -n 1 "$log")
  remark=""
  if [[ "$last" =~ ^[A-Za-z0-9+._\ -]+:\ ([0-9]+)\ passed,\ ([0-9]+)\ failed$ ]]; then
    passed=${BASH_REMATCH[1]} failed=${BASH_REMATCH[2]}
    if [ "$((passed + failed))" -eq 0 ]; then
      failed=1 remark="it ran nothing"
    elif [ "$status" -ne 0 ] && [ "$failed" -eq 0 ]; then
      failed=1 remark="all passed but the exit status was $status"
    elif [ "$status" -eq 0 ] && [ "$failed" -ne 0 ]; then
      remark="(exit status 0 in spite of failures)"
    fi
  else
    passed=0 failed=1 remark="it ended with status $status and gave no count"
    [ "$status" -eq 124 ] && remark="it took longer than $limit s and was stopped"
  fi
}

# Runs a suite in a process of its own; what is to be printed and added up goes into its result.
run_suite() { # NAME
  local passed=0 failed=1 remark processor=0 started=$SECONDS log="$log_folder/$1.log"
  remark=$(obstacle "$1")
  if [ -z "$remark" ]; then
    measure "$1" "${command_of[$1]}"
    remark="$((SECONDS - started)) s, $processor of processor $remark"
  else
    : >"$log"
  fi
  printf '%d %d %s\n' "$passed" "$failed" "$remark" >"$log_folder/$1.result"
}

# Waits for one of the running suites, prints its line and adds it up.
collect() {
  local passed=0 failed=1 remark="its runner was stopped" pid name line log
  wait -n -p pid
  name=${running[$pid]}
  log="$log_folder/$name.log"
  unset "running[$pid]"
  [ -f "$log_folder/$name.result" ] && read -r passed failed remark <"$log_folder/$name.result"
  count "$name" "$passed" "$failed" "$remark"
  while IFS= read -r line; do left_out+=("${line#LEFT OUT }"); done < <(grep '^LEFT OUT ' "$log")
  if [ "$failed" -gt 0 ] && [ -s "$log" ]; then
    grep '^FAIL' "$log" | head -n 20 | cut -c 1-300 | sed 's/^/    /'
    printf '    whole output: build/log/%s.log\n' "$name"
  fi
}

# Runs the named suites, at most LANES at a time.
run_suites() { # LANES NAME...
  local lanes="$1" name
  local -A running=()
  shift
  for name in "$@"; do
    while [ "${#running[@]}" -ge "$lanes" ]; do collect; done
    say "running $name"
    rm -f "$log_folder/$name.result"
    run_suite "$name" &
    running[$!]="$name"
  done
  while [ "${#running[@]}" -gt 0 ]; do collect; done
}

# Three suites that must be counted as failures, through the very code that counts the others.
run_canary() {
  local passed failed remark processor seen=0
  local catch='"$root"/tests/support/catch_suite'
  measure canary "$catch canary \"\$root\"/build/release/qb_canary"
  [ "$passed" = 1 ] && [ "$failed" = 1 ] && seen=$((seen + 1))
  measure canary-silent "true"
  [ "$passed" = 0 ] && [ "$failed" = 1 ] && seen=$((seen + 1))
  measure canary-crash 'echo "canary: 1 passed, 0 failed"; kill -SEGV $$'
  [ "$failed" = 1 ] && seen=$((seen + 1))
  if [ "$seen" -eq 3 ]; then
    printf '%-24s failed as it must (not counted)\n' canary
  else
    void=1
    count canary 0 1 "a failure was not seen as one; see build/log/canary.log"
  fi
}
