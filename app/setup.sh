# What app/run and tests/run share: the packages, how they are installed, how a tree is built.
# The only list of Debian packages is here, so that the two commands cannot drift apart.
# Read by bash with `source`; needs $root (the repository) and $me (the command's name) to be set.

# To build and to run the two programs.
build_packages=(
  g++ cmake ninja-build ccache pkg-config
  libimgui-dev libstb-dev libglfw3-dev libgl-dev libfreetype-dev libgl1-mesa-dri
  libsqlite3-dev libzstd-dev libssl-dev libexpected-dev libfmt-dev libutfcpp-dev libutf8proc-dev
  nlohmann-json3-dev libcli11-dev libsodium-dev uuid-dev
  libqpdf-dev libcairo2-dev libpango1.0-dev libqrencode-dev libzint-dev libasound2-dev
  libsystemd-dev libxss-dev
  fonts-noto-core tzdata
)
# To build and to run the tests, beside those above.
test_packages=(
  catch2 librapidcheck-dev libbenchmark-dev
  clang-14 libclang-rt-14-dev libc++-14-dev libc++abi-14-dev clang-format clang-tidy
  xvfb xdotool imagemagick
  poppler-utils qpdf age minisign openssl python3-cryptography faketime
  man-db groff-base
  python3 python3-stdnum python3-vobject python3-icalendar libical3
  zbar-tools dmtx-utils python3-zxing-cpp python3-pil python3-numpy
  sox dbus-daemon python3-dbusmock python3-dbus e2fsprogs
)
# Only for suites of the deep tier.
deep_packages=(libreoffice-calc-nogui mmdebstrap git)
# Only where no npm is installed: beside another node, Debian's npm refuses to install.
node_packages=(nodejs npm)

log_folder="$root/build/log"

# One short line for each step, on standard error: standard output belongs to the program.
say() { printf '%s: %s\n' "$me" "$*" >&2; }

# One clear line, and the end.
fail() {
  say "$*"
  exit 1
}

# Prepares build/ and lets one command at a time install and build in it. Both are named here
# because a second app/run, started while the first still builds, must wait and not disturb.
take_turn() {
  mkdir -p "$log_folder" || fail "cannot write to $root/build"
  exec 9>"$root/build/.turn"
  flock -n 9 || { say "waiting for another build in this folder"; flock 9; }
}

end_turn() { exec 9>&-; }

# Prints those of the named packages that are not installed.
missing_packages() {
  dpkg-query -W -f='${Package} ${db:Status-Abbrev}\n' "$@" 2>/dev/null |
    awk -v wanted="$*" '
      $2 == "ii" { there[$1] = 1 }
      END { n = split(wanted, name, " ")
            for (i = 1; i <= n; ++i) if (!(name[i] in there)) print name[i] }'
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then env "$@"; else sudo env "$@"; fi
}

# Installs what is missing of the named packages; costs some milliseconds when nothing is.
install_packages() {
  command -v dpkg-query >/dev/null && command -v apt-get >/dev/null ||
    fail "this needs Debian 12: dpkg-query and apt-get are not here"
  local missing log="$log_folder/packages.log"
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" -eq 0 ] && return
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
    fail "cannot install without root or sudo; as root: apt-get install ${missing[*]}"
  fi
  say "installing ${#missing[@]} packages from Debian (log: build/log/packages.log)"
  local apt=(DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 apt-get -q -y
    -o DPkg::Lock::Timeout=300 -o Acquire::Retries=3)
  as_root "${apt[@]}" update >"$log" 2>&1 9>&- ||
    fail "the package lists could not be fetched; see build/log/packages.log"
  as_root "${apt[@]}" install --no-install-recommends "${missing[@]}" >>"$log" 2>&1 9>&- ||
    fail "installing failed: $(grep -m1 '^E: ' "$log"); see build/log/packages.log"
}

# True when the tree's last configuration had NAME set to VALUE.
configured_with() { # TREE NAME VALUE
  grep -q "^$2:[A-Z]*=$3\$" "$root/build/$1/CMakeCache.txt" 2>/dev/null
}

# Configures build/TREE when it has not been, was for another folder, or lacks a setting.
configure_tree() { # TREE NAME=VALUE...
  local tree="$1" folder="$root/build/$1" log="$log_folder/$1.log" fits=1 pair
  shift
  configured_with "$tree" CMAKE_HOME_DIRECTORY "$root" || rm -rf "$folder"
  [ -f "$folder/build.ninja" ] || fits=0
  for pair in "$@"; do configured_with "$tree" "${pair%%=*}" "${pair#*=}" || fits=0; done
  : >"$log"
  [ "$fits" -eq 1 ] && return
  say "configuring build/$tree"
  cmake -S "$root" -B "$folder" -G Ninja "${@/#/-D}" >>"$log" 2>&1 9>&-
}

# Builds the named targets (all without a name), going on past a failure to show all of them.
build_tree() { # TREE TARGET...
  local tree="$1" log="$log_folder/$1.log"
  shift
  [ -n "${HOME:-}" ] || export CCACHE_DIR="$root/build/ccache"
  # Two clones at two places share the cache, which must be told to trust precompiled headers.
  export CCACHE_BASEDIR="$root" CCACHE_SLOPPINESS=pch_defines,time_macros
  say "building build/$tree (log: build/log/$tree.log)"
  # The language of messages is part of what the cache goes by: one language for whoever builds, or
  # app/run and tests/run compile all of it once each. And first_error reads English.
  LC_ALL=C.UTF-8 ninja -C "$root/build/$tree" -k 0 "$@" >>"$log" 2>&1 9>&-
}

# The one line that says best why a build failed.
first_error() { # TREE
  local log="$log_folder/$1.log" line
  line=$(grep -m1 -E ': (fatal )?error: |undefined reference|multiple definition' "$log" ||
    grep -m1 -A 3 '^CMake Error' "$log" | tr -s ' \n' ' ')
  [ -n "$line" ] || line=$(tail -n 1 "$log")
  line=${line//"$root/"/}
  printf '%s' "${line#../../}"
}
