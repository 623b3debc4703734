#!/bin/sh
# sh web/fetch.sh NAME...   prints the folder that holds each named third-party source, one a line, and fetches
# what the cache lacks first. Names, versions and checksums stand in web/sources.txt.
#
# Debian archives come through apt with a sources list and an index folder of our own, so nothing of the system's
# changes and no root is needed; npm archives come through npm.
set -eu
umask 022
export LC_ALL=C
table=$(cd "$(dirname "$0")" && pwd)/sources.txt
cache=${COATWRIGHT_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/coatwright}

say() { echo "web/fetch.sh: $*" >&2; }
fail() { say "$*"; exit 1; }

# The first entry of the machine's own sources lists that serves Debian 12, as: address <tab> keyring.
debian_entry() {
  cat /etc/apt/sources.list /etc/apt/sources.list.d/*.list 2>/dev/null | awk '
    /^deb / {
      key = ""
      if (match($0, /\[[^]]*\]/)) {
        options = substr($0, RSTART, RLENGTH); sub(/\[[^]]*\] */, "")
        if (match(options, /signed-by=[^] ]*/)) key = substr(options, RSTART + 10, RLENGTH - 10)
      }
      if ($3 ~ /^(bookworm|stable|oldstable)$/ && / main( |$)/) print $2 "\t" key
    }'
  cat /etc/apt/sources.list.d/*.sources 2>/dev/null | awk '
    function done_with_entry() {
      if (enabled && types ~ /(^| )deb( |$)/ && suites ~ /(^| )(bookworm|stable|oldstable)( |$)/ &&
          components ~ /(^| )main( |$)/) { split(uris, u, " "); print u[1] "\t" key }
      types = suites = components = uris = key = ""; enabled = 1
    }
    BEGIN { done_with_entry() }
    /^[ \t]*$/ { done_with_entry(); next }
    { value = $0; sub(/^[^:]*:[ \t]*/, "", value) }
    /^Types:/ { types = value }  /^URIs:/ { uris = value }  /^Suites:/ { suites = value }
    /^Components:/ { components = value }  /^Signed-By:/ { key = value }
    /^Enabled:/ { enabled = value !~ /^(no|false|0)/ }
    END { done_with_entry() }'
}

# apt with our own list and index folder; only the keyrings and the mirror are the machine's.
private_apt() {
  command=$1; shift
  "$command" -qq -o Dir::Etc::sourcelist="$work/apt/sources.list" -o Dir::Etc::sourceparts=- \
    -o Dir::State::lists="$work/apt/lists" -o Dir::Cache="$work/apt/cache" \
    -o APT::Sandbox::User="$(id -un)" -o Acquire::Languages=none "$@"
}

# The indices are loaded at most once a run, and only if something has to come from Debian.
prepare_apt() {
  [ ! -f "$work/apt/ready" ] || return 0
  entry=$(debian_entry | head -n 1)
  [ -n "$entry" ] || fail "no Debian 12 (bookworm, main) entry in /etc/apt/sources.list or /etc/apt/sources.list.d; add one"
  address=${entry%%	*}
  keyring=${entry#*	}
  keyring=${keyring:-/usr/share/keyrings/debian-archive-keyring.gpg}
  mkdir -p "$work/apt/lists/partial" "$work/apt/cache/archives/partial"
  for line in "deb-src:bookworm" "deb:bookworm" "deb-src:trixie"; do
    echo "${line%:*} [signed-by=$keyring] $address ${line#*:} main"
  done >"$work/apt/sources.list"
  private_apt apt-get update >&2 || fail "Debian's package lists could not be loaded; check the network and try again"
  touch "$work/apt/ready"
}

download() {  # name version from archive, into the current folder
  case $3/$4 in
    npm/*) npm pack --silent "$1@$2" >/dev/null || true ;;
    */*.deb) prepare_apt; private_apt apt-get download "$1=$2" >&2 || true ;;
    *) prepare_apt; private_apt apt-get source --download-only --tar-only "$1=$2" >&2 || true ;;
  esac
  [ -f "$4" ] && return 0
  fail "$4 ($1 $2) is not offered any more; a newer version has probably replaced it." \
    "Look it up with 'apt-cache madison $1' (or 'npm view $1 version'), try it, and pin it in web/sources.txt with its SHA-256."
}

unpack() {  # archive folder
  mkdir "$2"
  case $1 in
    *.deb) dpkg-deb -x "$1" "$2" ;;
    *) tar -x -f "$1" -C "$2" --strip-components=1 --no-same-owner ;;
  esac
}

work=
cleanup() { [ -z "$work" ] || rm -rf "$work"; }
trap cleanup EXIT
trap 'exit 1' INT TERM HUP

[ $# -gt 0 ] || fail "say which sources are wanted; web/sources.txt lists them"
for name in "$@"; do
  row=$(awk -v name="$name" '$1 == name' "$table")
  [ -n "$row" ] || fail "web/sources.txt has no source called '$name'"
  # shellcheck disable=SC2086
  set -- $row
  folder=$cache/$1-$(echo "$5" | cut -c1-12)
  if [ ! -d "$folder" ]; then
    mkdir -p "$cache"
    [ -n "$work" ] || work=$(mktemp -d "$cache/fetch.XXXXXX")
    say "fetching $1 $2"
    (
      cd "$work"
      download "$1" "$2" "$3" "$4"
      echo "$5  $4" | sha256sum --check --quiet >&2 ||
        fail "$4 does not have the SHA-256 that web/sources.txt expects; it was not used"
      unpack "$4" "$work/$1.unpacked"
    )
    # Two runs may race here: the first to arrive wins, both have the same content.
    mv -T "$work/$1.unpacked" "$folder" 2>/dev/null || [ -d "$folder" ]
  fi
  echo "$folder"
done
