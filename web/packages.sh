# Read by web/serve.sh and tests/run.sh with '.': the Debian packages that the build and the tests need, and the compiler
# cache that both use.

native_packages="ca-certificates bzip2 xz-utils cmake ninja-build ccache python3 python3-fonttools git g++ libsdl2-dev libgl-dev
  libgeos-dev"
pages_packages="ca-certificates bzip2 xz-utils cmake ninja-build ccache emscripten nodejs python3 python3-fonttools"
tests_packages="$pages_packages git g++ clang libclang-rt-14-dev clang-format libsdl2-dev libgl-dev libgeos-dev npm chromium
  poppler-utils qpdf librsvg2-bin python3-ezdxf python3-numpy python3-jsonschema zbar-tools firefox-esr webkit2gtk-driver xvfb"

# node and npm may also be another maker's, under the same command names.
package_present() {
  case $1 in
    nodejs) command -v node >/dev/null ;;
    npm) command -v npm >/dev/null ;;
    *) [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null)" = installed ] ;;
  esac
}

# need_packages NAME...: installs those that are missing, as root or with sudo.
need_packages() {
  missing=
  for package in "$@"; do
    package_present "$package" || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  if [ "$(id -u)" = 0 ]; then
    as_root=
  elif command -v sudo >/dev/null; then
    as_root=sudo
  else
    echo "These Debian packages are missing, and only root can install them: apt-get install$missing" >&2
    return 1
  fi
  echo "installing:$missing" >&2
  # Where no system runs but this, as in a container, nothing is lost if what is unpacked is not on the disk at once.
  quickly=
  [ -d /run/systemd/system ] || quickly="-o Dpkg::Options::=--force-unsafe-io"
  # A list that cannot be loaded may be one of a maker that we need nothing from.
  $as_root apt-get -qq update >&2 || echo "not every package list could be loaded; going on" >&2
  # shellcheck disable=SC2086
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq $quickly install --no-install-recommends -y $missing >&2
}

# Everything is compiled through ccache, into its usual folder, so that a second build compiles only what changed. Two
# copies of the project share what they compiled: paths are made relative before they are compared, and no path of a
# build is in an object.
export CMAKE_CXX_COMPILER_LAUNCHER="${CMAKE_CXX_COMPILER_LAUNCHER-ccache}" CMAKE_C_COMPILER_LAUNCHER="${CMAKE_C_COMPILER_LAUNCHER-ccache}"
export CCACHE_BASEDIR="${CCACHE_BASEDIR-/}" CCACHE_NOHASHDIR="${CCACHE_NOHASHDIR-1}"
# Headers that were read ahead (coatwright_ahead of CMakeLists.txt) are told apart by what is in them. What a source depends
# on is taken from what the compiler says of it, which spares a second reading of all headers.
export CCACHE_DEPEND="${CCACHE_DEPEND-1}"
export CCACHE_SLOPPINESS="${CCACHE_SLOPPINESS-pch_defines,time_macros,include_file_mtime,include_file_ctime}"
