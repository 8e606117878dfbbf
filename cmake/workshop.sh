# What ./run and ./check share; sourced by them, with `root` set to the folder of the repository.
# Everything said here goes to standard error: standard output belongs to the program.
# shellcheck shell=bash

say() { printf '%s\n' "$*" >&2; }
die() { say "$*"; exit 70; }

# packages_for run|check|thorough: the names in packages.txt; each needs those before it too.
packages_for() {
  local purpose name instead
  while read -r purpose name instead; do
    if [ -n "$instead" ] && command -v -- "$instead" >/dev/null; then continue; fi
    case "$purpose" in
      run) echo "$name" ;;
      check) [ "$1" = run ] || echo "$name" ;;
      thorough) [ "$1" != thorough ] || echo "$name" ;;
    esac
  done <"$root/cmake/packages.txt"
}

# install_missing run|check|thorough: asks apt for the packages that are not there, and for nothing if all are.
install_missing() {
  if ! command -v dpkg-query >/dev/null; then
    say "This is not Debian: taking it that the packages in cmake/packages.txt are installed."
    return
  fi
  local wanted have missing as_root=()
  mapfile -t wanted < <(packages_for "$1" | sort)
  have=$(dpkg-query -W -f '${Package} ${db:Status-Status}\n' "${wanted[@]}" 2>/dev/null |
    sed -n 's/ installed$//p' | sort -u) || true
  mapfile -t missing < <(comm -23 <(printf '%s\n' "${wanted[@]}") <(printf '%s\n' "$have"))
  [ "${#missing[@]}" -gt 0 ] || return 0

  say "Installing ${#missing[@]} of ${#wanted[@]} Debian packages (usually 3 to 5 minutes for all): ${missing[*]}"
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || die "Installing needs root or sudo. Ask somebody who has it to install: ${missing[*]}"
    as_root=(sudo)
  fi
  local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y)
  "${apt[@]}" update </dev/null >&2 || die "apt-get update failed: is this machine online?"
  "${apt[@]}" install --no-install-recommends "${missing[@]}" </dev/null >&2 ||
    die "apt-get install failed; its own words are above."
}

# What the tests of the pages need from npm comes with the packages, so that nothing asks the network once it is there.
# Without it those tests say what is missing.
install_page_tools() {
  cmake -D "FROM=$root/tests/page/package.json" -D "TO=$root/build/audit/tests/page/tools" \
    -P "$root/tests/page/install_tools.cmake" >&2 ||
    say "The tests of the pages will fail; ./check -LE page leaves them out."
}

# jobs: as many as there are processors, fewer if they would not have 1 GB of memory each.
jobs_at_once() {
  local processors memory
  processors=$(nproc)
  memory=$(awk '/^MemAvailable:/ {print int($2 / 1000000)}' /proc/meminfo 2>/dev/null || echo "$processors")
  [ "${memory:-1}" -ge 1 ] || memory=1
  echo $((processors < memory ? processors : memory))
}

# build <preset> <usual time in words> [<target>...]; no target means all
build() {
  local folder="$root/build/$1" preset=$1 time=$2 left
  shift 2
  # A folder that is there keeps what an older preset told it, unless it is told again.
  if [ ! -e "$folder/build.ninja" ] || [ "$root/CMakePresets.json" -nt "$folder/build.ninja" ]; then
    (cd "$root" && cmake --preset "$preset") >&2 || die "Configuring failed; its own words are above."
  fi
  left=$(ninja -C "$folder" -n "$@" 2>&1) || true
  case "$left" in
    *"no work to do"*) return ;;
  esac
  say "Building in build/$preset (usually $time the first time on two cores)"
  ninja -C "$folder" -j "$(jobs_at_once)" "$@" >&2 || die "Building failed; the compiler's own words are above."
}
