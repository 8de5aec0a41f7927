# A list of packages that has too much and too little, and a script that starts what nobody brings.
build_packages=(
  g++ libidle-dev
)
test_packages=(libgadget-dev coreutils tar)

as_wanted() {
  [ -d "$1" ] || gadget-make --for "$(gadget-name "$1")"
  case "$1" in
    gadget-word | other) timeout -k 1 5 gadget-late && sort <"$1" ;;
  esac
}
